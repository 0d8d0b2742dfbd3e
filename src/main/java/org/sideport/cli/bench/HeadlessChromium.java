package org.sideport.cli.bench;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The system's Chromium without a window, asked through its own protocol (Chrome DevTools Protocol). */
final class HeadlessChromium implements AutoCloseable {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();
    private static final List<String> NAMES = List.of("chromium", "chromium-browser", "google-chrome");
    private static final int PATIENCE_S = 120;

    private final Process process;
    private final WebSocket socket;
    private final BlockingQueue<String> answers;
    private int last;

    private HeadlessChromium(Process process, WebSocket socket, BlockingQueue<String> answers) {
        this.process = process;
        this.socket = socket;
        this.answers = answers;
    }

    /** @return {@code null} where no such browser is on the path */
    static @Nullable HeadlessChromium start(Path profile) throws IOException, InterruptedException {
        for (String name : NAMES) {
            for (String folder : System.getenv().getOrDefault("PATH", "").split(java.io.File.pathSeparator)) {
                Path found = Path.of(folder, name);
                if (Files.isExecutable(found)) {
                    return start(found, profile);
                }
            }
        }
        return null;
    }

    private static HeadlessChromium start(Path browser, Path profile) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(
                        browser.toString(),
                        "--headless=new",
                        "--no-sandbox",
                        "--disable-dev-shm-usage",
                        "--mute-audio",
                        "--window-size=1280,1000",
                        "--remote-debugging-port=0",
                        "--user-data-dir=" + profile.toAbsolutePath(),
                        "about:blank")
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
        try {
            HttpClient http = HttpClient.newHttpClient();
            BlockingQueue<String> answers = new LinkedBlockingQueue<>();
            WebSocket socket = http.newWebSocketBuilder()
                    .buildAsync(URI.create(page(http, port(profile))), new Listening(answers))
                    .join();
            return new HeadlessChromium(process, socket, answers);
        } catch (IOException | InterruptedException | RuntimeException e) {
            process.destroyForcibly();
            throw e;
        }
    }

    private static int port(Path profile) throws IOException, InterruptedException {
        Path written = profile.resolve("DevToolsActivePort");
        for (int i = 0; i < PATIENCE_S * 10; i++) {
            if (Files.isRegularFile(written)) {
                List<String> lines = Files.readAllLines(written);
                if (lines.size() > 1) {
                    return Integer.parseInt(lines.get(0));
                }
            }
            Thread.sleep(100);
        }
        throw new IOException("the browser does not say where to ask it");
    }

    private static String page(HttpClient http, int port) throws IOException, InterruptedException {
        for (int i = 0; i < PATIENCE_S * 10; i++) {
            String list = http.send(
                            HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + "/json/list"))
                                    .timeout(Duration.ofSeconds(PATIENCE_S))
                                    .build(),
                            HttpResponse.BodyHandlers.ofString())
                    .body();
            for (JsonNode target : MAPPER.readTree(list)) {
                if (target.path("type").asString().equals("page")) {
                    return target.path("webSocketDebuggerUrl").asString();
                }
            }
            Thread.sleep(100);
        }
        throw new IOException("the browser has no page");
    }

    private static final class Listening implements WebSocket.Listener {

        private final BlockingQueue<String> answers;
        private final StringBuilder part = new StringBuilder();

        Listening(BlockingQueue<String> answers) {
            this.answers = answers;
        }

        @Override
        public @Nullable CompletionStage<?> onText(WebSocket from, CharSequence data, boolean whole) {
            part.append(data);
            if (whole) {
                answers.add(part.toString());
                part.setLength(0);
            }
            from.request(1);
            return null;
        }
    }

    void open(Path page) throws IOException, InterruptedException {
        call("Page.navigate", Map.of("url", page.toUri().toString()));
    }

    /** What a promise comes to. */
    double await(String script) throws IOException, InterruptedException {
        JsonNode result =
                call("Runtime.evaluate", Map.of("expression", script, "awaitPromise", true, "returnByValue", true));
        JsonNode value = result.path("result").path("value");
        if (!value.isNumber()) {
            throw new IOException("the page answers " + result);
        }
        return value.asDouble();
    }

    private JsonNode call(String method, Map<String, Object> parameters) throws IOException, InterruptedException {
        int id = ++last;
        socket.sendText(MAPPER.writeValueAsString(Map.of("id", id, "method", method, "params", parameters)), true)
                .join();
        while (true) {
            String answer = answers.poll(PATIENCE_S, TimeUnit.SECONDS);
            if (answer == null) {
                throw new IOException("the browser does not answer");
            }
            JsonNode read = MAPPER.readTree(answer);
            if (read.path("id").asInt(-1) == id) {
                return read.path("result");
            }
        }
    }

    @Override
    public void close() {
        socket.abort();
        process.destroy();
        try {
            if (!process.waitFor(10, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
        } catch (InterruptedException e) {
            process.destroyForcibly();
            Thread.currentThread().interrupt();
        }
    }
}
