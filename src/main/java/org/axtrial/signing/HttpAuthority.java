package org.axtrial.signing;

import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;

/** A time-stamping authority behind a web address (RFC 3161, 3.4). */
public final class HttpAuthority implements Timestamp.Authority {

    private static final Duration CONNECT = Duration.ofSeconds(10);
    private static final Duration ANSWER = Duration.ofSeconds(30);

    private static final int LARGEST_REPLY = 1 << 20;

    private final URI address;

    private HttpAuthority(URI address) {
        this.address = address;
    }

    /**
     * Names the authority; nothing is sent yet.
     *
     * @throws SigningException if the address is not one of http or https
     */
    public static HttpAuthority at(String address) throws SigningException {
        try {
            URI uri = URI.create(address);
            if (("http".equalsIgnoreCase(uri.getScheme()) || "https".equalsIgnoreCase(uri.getScheme()))
                    && uri.getHost() != null) {
                return new HttpAuthority(uri);
            }
        } catch (IllegalArgumentException e) {
            throw new SigningException("\"" + address + "\" is no web address: " + e.getMessage(), e);
        }
        throw new SigningException("\"" + address + "\" is no address of http or https");
    }

    @Override
    public byte[] ask(byte[] request) throws IOException {
        HttpRequest post = HttpRequest.newBuilder(address)
                .timeout(ANSWER)
                .header("Content-Type", "application/timestamp-query")
                .header("Accept", "application/timestamp-reply")
                .POST(HttpRequest.BodyPublishers.ofByteArray(request))
                .build();
        try {
            HttpClient client = HttpClient.newBuilder().connectTimeout(CONNECT).build();
            HttpResponse<InputStream> response = client.send(post, HttpResponse.BodyHandlers.ofInputStream());
            try (InputStream body = response.body()) {
                if (response.statusCode() != 200) {
                    throw new IOException(address + " answers with HTTP status " + response.statusCode());
                }
                byte[] reply = body.readNBytes(LARGEST_REPLY + 1);
                if (reply.length > LARGEST_REPLY) {
                    throw new IOException(address + " sends more than any time stamp has");
                }
                return reply;
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted while waiting for " + address, e);
        } catch (IOException e) {
            String why = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
            throw new IOException(why.contains(address.toString()) ? why : address + ": " + why, e);
        }
    }
}
