package org.sideport.report.exchange;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;

/**
 * Sends xAPI statements to a store that the caller names, and to no other (IEEE 9274.1.1, communication: POST to the resource
 * {@code statements}). No redirect is followed, since statements may go nowhere else.
 */
public final class StatementSender {

    private static final int BATCH = 50;
    private static final Duration PATIENCE = Duration.ofSeconds(30);
    private static final Set<String> HERE = Set.of("localhost", "127.0.0.1", "[::1]");

    private final URI endpoint;
    private final @Nullable String login;

    /**
     * @param endpoint address of the store, to which {@code /statements} is added
     * @param login name and password with a colon between them; {@code null} to send none
     * @throws InputException if it is no address, or would send without encryption to another machine
     */
    public StatementSender(String endpoint, @Nullable String login) {
        this.endpoint = statements(endpoint);
        this.login = login;
    }

    private static URI statements(String endpoint) {
        URI base;
        try {
            base = URI.create(endpoint.endsWith("/") ? endpoint + "statements" : endpoint + "/statements");
        } catch (IllegalArgumentException e) {
            throw new InputException("this is no address", endpoint, "write it as https://store.example/xapi", e);
        }
        String scheme = String.valueOf(base.getScheme()).toLowerCase(Locale.ROOT);
        String host = base.getHost();
        if (host == null || base.getUserInfo() != null || !(scheme.equals("https") || scheme.equals("http"))) {
            throw new InputException(
                    "this is no address of a statement store", endpoint, "write it as https://store.example/xapi");
        }
        if (scheme.equals("http") && !HERE.contains(host)) {
            throw new InputException(
                    "marks would go through the network unencrypted", endpoint, "use an address with https");
        }
        return base;
    }

    /**
     * Sends all, in batches; a batch is taken whole or not at all by the store.
     *
     * @return the number of statements that the store has confirmed
     * @throws InputException if the store cannot be reached, refuses, or confirms others; says how many were taken before.
     *     Sending again is safe, since the ids are the same
     */
    public int send(ArrayNode statements, Progress progress) {
        HttpClient client = HttpClient.newBuilder()
                .connectTimeout(PATIENCE)
                .followRedirects(HttpClient.Redirect.NEVER)
                .build();
        int sent = 0;
        List<String> batches = XapiStatements.batches(statements, BATCH);
        for (String batch : batches) {
            progress.check();
            progress.report((double) sent / statements.size(), "Sending");
            post(client, batch, sent);
            sent = Math.min(statements.size(), sent + BATCH);
        }
        return sent;
    }

    private void post(HttpClient client, String batch, int before) {
        HttpRequest.Builder request = HttpRequest.newBuilder(endpoint)
                .timeout(PATIENCE)
                .header("Content-Type", "application/json")
                .header("X-Experience-API-Version", XapiStatements.VERSION)
                .POST(HttpRequest.BodyPublishers.ofString(batch));
        String name = login;
        if (name != null) {
            request.header(
                    "Authorization",
                    "Basic " + Base64.getEncoder().encodeToString(name.getBytes(StandardCharsets.UTF_8)));
        }
        try {
            HttpResponse<String> answer =
                    client.send(request.build(), HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
            if (answer.statusCode() != 200) {
                throw new InputException(
                        "the store answered " + answer.statusCode() + shortened(answer.body()) + taken(before),
                        endpoint.toString(),
                        remedy(answer.statusCode()));
            }
            requireIds(batch, answer.body(), before);
        } catch (IOException e) {
            String why = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
            throw new InputException(
                    "the store cannot be reached: " + why + taken(before),
                    endpoint.toString(),
                    "check the address and the network; sending again is safe",
                    e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CancellationException("cancelled");
        }
    }

    /** IEEE 9274.1.1: the answer is the array of the ids, in order. */
    private void requireIds(String batch, String body, int before) {
        JsonNode answered = StandardJson.parse(body, endpoint.toString());
        JsonNode asked = StandardJson.parse(batch, "statements");
        boolean all = answered.isArray() && answered.size() == asked.size();
        for (int i = 0; all && i < asked.size(); i++) {
            all = answered.get(i).asString("").equals(asked.get(i).path("id").asString(""));
        }
        if (!all) {
            throw new InputException(
                    "the store did not confirm what was sent" + taken(before),
                    endpoint.toString(),
                    "check that it is an xAPI store");
        }
    }

    private static String taken(int before) {
        return before == 0 ? "; it took nothing" : "; it took the first " + before + " statements";
    }

    private static String remedy(int status) {
        return switch (status) {
            case 401, 403 -> "put name and password, with a colon between them, into SIDEPORT_XAPI_LOGIN";
            case 301, 302, 307, 308 -> "name the store's own address: statements are not sent on";
            case 400, 409 -> "ask who keeps the store what it takes: it must know version " + XapiStatements.VERSION;
            default -> "check the address, and ask who keeps the store";
        };
    }

    private static String shortened(String body) {
        String line = body.replaceAll("\\s+", " ").strip();
        return line.isEmpty() ? "" : ", \"" + (line.length() > 160 ? line.substring(0, 159) + "…" : line) + "\"";
    }
}
