package org.axtrial.survey;

import org.axtrial.link.DriveRefusedException;
import org.axtrial.link.LinkException;
import org.axtrial.link.LinkTrouble;

/** Trouble on the wire in the words of somebody who has to find it. */
final class Troubles {

    private static final int NO_GATEWAY_PATH = 0x0A;
    private static final int TARGET_SILENT = 0x0B;

    private Troubles() {}

    /** Whether a gateway said that it could not reach the unit. */
    static boolean isGateway(LinkException e) {
        return e instanceof DriveRefusedException refused
                && (refused.code() == NO_GATEWAY_PATH || refused.code() == TARGET_SILENT);
    }

    /** Notes what happened. What the drive itself told is wrong; what nobody told is not proven. */
    static void tell(Notes notes, LinkException e) {
        String detail = " (" + e.getMessage() + ")";
        switch (LinkTrouble.of(e)) {
            case NAME_UNKNOWN ->
                notes.notProven(
                        "No address is known for this host name. Check endpoint.host, or give the IP address" + detail);
            case NO_ROUTE ->
                notes.notProven(
                        "The network has no way to this address. Check this computer's own address and mask, and"
                                + " the cable to the switch" + detail);
            case REFUSED ->
                notes.notProven(
                        "Connection refused: a device is at this address, but nothing listens on the port. Check"
                                + " the port, and whether Modbus TCP is switched on in the drive" + detail);
            case NO_CONNECTION ->
                notes.notProven("Nothing answers at this address. Check power, cable, address, and any firewall between"
                        + detail);
            case CLOSED_BY_PEER ->
                notes.notProven(
                        "The connection was taken and at once reset by the drive. Most often another master holds"
                                + " every connection that it allows: end the other program, or wait until the drive lets go"
                                + detail);
            case SILENCE ->
                notes.notProven("The connection stands, but the unit keeps silent. Check the unit id, and whether the"
                        + " device behind it is switched on" + detail);
            case FOREIGN_UNIT -> notes.wrong("Another unit answered than the one that was asked" + detail);
            case INVALID_REPLY ->
                notes.wrong(
                        "What answers does not speak Modbus TCP as it should. Check the port and the device" + detail);
            case EXCEPTION -> notes.wrong("The drive refused: " + e.getMessage());
        }
    }
}
