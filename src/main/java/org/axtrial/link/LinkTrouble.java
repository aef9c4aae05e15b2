package org.axtrial.link;

import java.io.EOFException;
import java.net.ConnectException;
import java.net.NoRouteToHostException;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;

/** What kind of trouble an exchange ran into, told apart by what the wire showed. */
public enum LinkTrouble {
    /** The host name has no address. */
    NAME_UNKNOWN,
    /** The network knows no way to the address. */
    NO_ROUTE,
    /** The address answers, but nothing listens on the port. */
    REFUSED,
    /** Nothing answers at the address at all. */
    NO_CONNECTION,
    /** The connection was taken and then reset or closed by the other side. */
    CLOSED_BY_PEER,
    /** The connection stands, and no reply comes. */
    SILENCE,
    /** A reply of another unit came. */
    FOREIGN_UNIT,
    /** What came is no reply to what was asked. */
    INVALID_REPLY,
    /** A sound reply with an exception code. */
    EXCEPTION;

    private static final String NOT_CONNECTED = "no connection within";

    /** The kind of trouble. */
    public static LinkTrouble of(LinkException e) {
        if (e instanceof DriveRefusedException || e.getCause() instanceof DriveRefusedException) {
            return EXCEPTION;
        }
        Throwable cause = e.getCause();
        String message = String.valueOf(e.getMessage());
        if (cause instanceof UnknownHostException) {
            return NAME_UNKNOWN;
        }
        if (cause instanceof NoRouteToHostException) {
            return NO_ROUTE;
        }
        if (cause instanceof ConnectException) {
            return String.valueOf(cause.getMessage()).contains("refused") ? REFUSED : NO_ROUTE;
        }
        if (cause instanceof SocketTimeoutException) {
            return message.contains(NOT_CONNECTED) ? NO_CONNECTION : SILENCE;
        }
        if (cause instanceof InvalidReplyException) {
            return String.valueOf(cause.getMessage()).startsWith("unit id") ? FOREIGN_UNIT : INVALID_REPLY;
        }
        if (cause instanceof EOFException || cause instanceof SocketException || message.contains("reset")) {
            return CLOSED_BY_PEER;
        }
        return SILENCE;
    }
}
