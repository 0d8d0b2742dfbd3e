package org.sideport.workflow.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Rubric;
import org.sideport.model.Tagging;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.timing.Boundary;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Published formats through real stores. */
class OpenFormatsTest {

    private static final String HOME = "https://eyes.example/sideport";

    @TempDir
    static Path once;

    @TempDir
    Path folder;

    private Path from;

    /** Stores are made once and copied: making one takes longer than all that is tried on it. */
    @BeforeAll
    static void stores() throws IOException {
        try (Workspace full = FreshWorkspace.in(once.resolve("from"));
                Workspace empty = FreshWorkspace.in(once.resolve("to"))) {
            Hospital.fill(full, once.resolve("shelf"));
            empty.change(s -> s.cases().add(full.read(r -> r.cases().get("D-017"))));
        }
    }

    @BeforeEach
    void hospital() throws IOException {
        from = copy("from");
    }

    private Path copy(String name) throws IOException {
        Path source = once.resolve(name);
        Path target = folder.resolve(name);
        try (var files = Files.walk(source)) {
            for (Path file : files.toList()) {
                Files.copy(file, target.resolve(source.relativize(file).toString()));
            }
        }
        return target;
    }

    private ExportOpen.Exported export(OpenFormat format, Path out) {
        try (Workspace workspace = Workspace.open(from)) {
            return new ExportOpen(workspace, Clock.systemUTC())
                    .export(new ExportOpen.Wanted("D-017", null, format, false, ConsentPurpose.ASSESSMENT), out);
        }
    }

    @ParameterizedTest
    @EnumSource(names = {"VTT", "OTIO", "ANNOTATION"})
    void tagsAndCommentsReachAnotherStoreWhole(OpenFormat format) throws IOException {
        Path file = folder.resolve("out" + format.ending());
        ExportOpen.Exported done = export(format, file);
        assertThat(done.dropped()).anyMatch(s -> s.contains("1 spoken comment"));
        try (Workspace source = Workspace.open(from);
                Workspace target = Workspace.open(copy("to"))) {
            ImportOpen job = new ImportOpen(target);
            ImportOpen.Wanted wanted = new ImportOpen.Wanted("D-017", "A1", null, false, CommentTone.QUESTION);
            ImportOpen.Taken seen = job.look(file, wanted);
            List<String> none = target.read(s -> s.taggings().annotators("D-017"));
            assertThat(none).isEmpty();
            assertThat(job.take(file, wanted)).isEqualTo(seen);
            assertThat(tagging(target)).isEqualTo(tagging(source));
            assertThat(confirmed(target)).isEqualTo(confirmed(source)).isNotEmpty();
            assertThat(threads(target))
                    .isEqualTo(withoutVoices(threads(source)))
                    .isNotEmpty();
            ImportOpen.Taken again = job.take(file, wanted);
            assertThat(again.phases() + again.events() + again.comments()).isZero();
            assertThat(again.same()).isEqualTo(seen.comments());
        }
    }

    private static Tagging tagging(Workspace workspace) {
        return workspace.read(s -> s.taggings().find("D-017", "A1").orElseThrow());
    }

    private static Set<Boundary> confirmed(Workspace workspace) {
        return workspace.read(s -> s.taggings().confirmed("D-017", "A1"));
    }

    private static List<CommentThread> threads(Workspace workspace) {
        return workspace.read(s -> s.comments().threads("D-017", ""));
    }

    private static List<CommentThread> withoutVoices(List<CommentThread> threads) {
        return threads.stream()
                .filter(t ->
                        !t.comment().text().isEmpty() || !t.comment().drawing().isEmpty())
                .map(t -> new CommentThread(t.comment().withVoice(null), t.replies(), t.unread()))
                .toList();
    }

    @Test
    void noFileNamesAPathAPersonOrAFolder() throws IOException {
        try (Workspace workspace = Workspace.open(from)) {
            ExportOpen job = new ExportOpen(workspace, Clock.systemUTC());
            for (OpenFormat format : OpenFormat.values()) {
                Path file = folder.resolve("all-" + format.id());
                job.export(new ExportOpen.Wanted("D-017", null, format, false, ConsentPurpose.ASSESSMENT), file);
                assertThat(Files.readString(file))
                        .as(format.id())
                        .doesNotContain("first.mp4", "shelf", once.toString(), System.getProperty("user.name") + "/");
            }
        }
    }

    @Test
    void theFileOfEverythingFitsItsPublishedSchemas() throws IOException {
        Path file = folder.resolve("all.json");
        export(OpenFormat.JSON, file);
        Map<String, String> schemas = List.of("case-file", "case-content", "rubric").stream()
                .map(n -> n + ".schema.json")
                .collect(Collectors.toMap(n -> "https://schemas.test/" + n, ShippedRubrics::text));
        var schema = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12, b -> b.schemas(schemas))
                .getSchema(com.networknt.schema.SchemaLocation.of("https://schemas.test/case-file.schema.json"));
        String text = Files.readString(file);
        assertThat(schema.validate(text, InputFormat.JSON)).isEmpty();
        assertThat(schema.validate(text.replace("\"made_at\"", "\"made\""), InputFormat.JSON))
                .isNotEmpty();
        assertThat(schema.validate(text.replaceFirst("\"at_us\" : [0-9]+", "\"at_us\" : -1"), InputFormat.JSON))
                .isNotEmpty();
        JsonNode root = JsonMapper.shared().readTree(text);
        // Hospital: two by A1 of which one superseded, one by T03, a draft by A2
        assertThat(root.at("/case/ratings").size()).isEqualTo(4);
        assertThat(root.path("rubrics").size()).isEqualTo(1);
    }

    @Test
    void consentIsAskedForThePurpose() {
        Path file = folder.resolve("x.vtt");
        try (Workspace workspace = Workspace.open(from)) {
            workspace.change(s -> s.consents().rule(ConsentSituation.OTHER_PURPOSE, ConsentRuling.REFUSE));
            ExportOpen job = new ExportOpen(workspace, Clock.systemUTC());
            assertThatThrownBy(() -> job.export(
                            new ExportOpen.Wanted("D-017", null, OpenFormat.VTT, false, ConsentPurpose.TEACHING), file))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining("teaching");
        }
        assertThat(file).doesNotExist();
    }

    @Test
    void aFileOfAnotherProgramBecomesTagsAndCommentsOrNothing() throws IOException {
        Path file = folder.resolve("theirs.vtt");
        Files.writeString(file, """
            WEBVTT

            00:01.000 --> 00:05.000
            Rhexis

            00:05.500 --> 00:06.000
            look at this edge
            """);
        try (Workspace workspace = Workspace.open(from)) {
            ImportOpen job = new ImportOpen(workspace);
            ImportOpen.Wanted wanted = new ImportOpen.Wanted("D-017", "A2", null, false, CommentTone.PRAISE);
            ImportOpen.Taken taken = job.take(file, wanted);
            assertThat(taken.phases()).isEqualTo(1);
            assertThat(taken.comments()).isEqualTo(1);
            assertThat(job.take(file, wanted).same()).isEqualTo(1);
            Files.writeString(file, "WEBVTT\n\n00:01.000 --> 00:04.000\nRhexis\n");
            assertThatThrownBy(() -> job.take(file, wanted)).hasMessageContaining("--replace");
            Files.writeString(file, "WEBVTT\n\n00:59.000 --> 01:01.000\nlate\n");
            assertThatThrownBy(() -> job.take(file, wanted))
                    .hasMessageContaining("line 4")
                    .hasMessageContaining("60 s");
            Tagging kept = workspace.read(s -> s.taggings().find("D-017", "A2").orElseThrow());
            assertThat(kept.spans()).extracting(x -> x.end().micros()).containsExactly(5_000_000L);
        }
    }

    @Test
    void rubricsGoOutAsPackagesAndComeIn() {
        Path file = folder.resolve("rubric.json");
        try (Workspace workspace = Workspace.open(from)) {
            RubricExchange job = new RubricExchange(workspace, Clock.systemUTC());
            Rubric rubric = job.export("phaco-errors", file);
            assertThat(job.take(file, "phaco").get(0).file()).isEmpty();
            assertThat(rubric.id()).isEqualTo("phaco-errors");
        }
    }

    // ---- xAPI

    /** IEEE 9274.1.1: what a statement must have, and how a store answers. */
    @Test
    void signedMarksAreStatements() throws IOException {
        Path file = folder.resolve("xapi.json");
        ExportStatements.Exported done;
        try (Workspace workspace = Workspace.open(from)) {
            done = new ExportStatements(workspace).write("D-017", HOME, file);
        }
        JsonNode all = JsonMapper.shared().readTree(Files.readString(file));
        int items = Hospital.RUBRIC.items().size();
        long excused = Hospital.rating("A1", false, 1).scores().stream()
                .filter(s -> s.pointsOrNull() == null)
                .count();
        // two signed and not superseded; one statement an item that has points, and one for the whole
        assertThat(all.size()).isEqualTo(done.statements()).isEqualTo((int) (2 * (items - excused + 1)));
        List<String> ids = new ArrayList<>();
        for (JsonNode one : all) {
            ids.add(one.path("id").asString());
            assertThat(one.at("/actor/account/homePage").asString()).isEqualTo(HOME);
            assertThat(one.at("/actor/account/name").asString()).isEqualTo("T03");
            assertThat(one.at("/verb/id").asString()).startsWith("http");
            assertThat(one.at("/object/id").asString()).startsWith(HOME + "/rubrics/phaco-competency/");
            double scaled = one.at("/result/score/scaled").doubleValue();
            double raw = one.at("/result/score/raw").doubleValue();
            assertThat(scaled).isBetween(-1.0, 1.0);
            assertThat(raw)
                    .isBetween(
                            one.at("/result/score/min").doubleValue(),
                            one.at("/result/score/max").doubleValue());
            assertThat(one.path("timestamp").asString()).endsWith("Z");
            assertThat(one.path("actor").has("name")).isFalse();
            assertThat(one.path("actor").has("mbox")).isFalse();
        }
        assertThat(ids).doesNotHaveDuplicates().allMatch(id -> id.matches("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}"));
        // level 3 of 5 by A1, amended: 3/5
        assertThat(all.get(0).at("/result/score/scaled").doubleValue())
                .isEqualTo(
                        3.0 / Hospital.RUBRIC.maximumOf(Hospital.RUBRIC.items().get(1)));
        assertThat(done.dropped()).anyMatch(s -> s.contains("left unmarked"));
    }

    @Test
    void statementsAreSentInBatchesToTheNamedStoreOnly() throws IOException {
        List<String> bodies = new CopyOnWriteArrayList<>();
        List<String> heads = new CopyOnWriteArrayList<>();
        HttpServer server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/xapi/statements", exchange -> {
            String body = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
            bodies.add(body);
            heads.add(exchange.getRequestMethod() + " "
                    + exchange.getRequestHeaders().getFirst("X-Experience-API-Version") + " "
                    + exchange.getRequestHeaders().getFirst("Content-Type") + " "
                    + exchange.getRequestHeaders().getFirst("Authorization"));
            String answer = JsonMapper.shared()
                    .writeValueAsString(JsonMapper.shared()
                            .readTree(body)
                            .valueStream()
                            .map(s -> s.path("id").asString())
                            .toList());
            byte[] bytes = answer.getBytes(StandardCharsets.UTF_8);
            exchange.sendResponseHeaders(200, bytes.length);
            exchange.getResponseBody().write(bytes);
            exchange.close();
        });
        server.createContext("/closed/statements", exchange -> {
            exchange.sendResponseHeaders(401, -1);
            exchange.close();
        });
        server.createContext("/moved/statements", exchange -> {
            exchange.getResponseHeaders().add("Location", "/xapi/statements");
            exchange.sendResponseHeaders(307, -1);
            exchange.close();
        });
        server.start();
        String base = "http://127.0.0.1:" + server.getAddress().getPort();
        try (Workspace workspace = Workspace.open(from)) {
            ExportStatements job = new ExportStatements(workspace);
            ExportStatements.Exported done = job.send("D-017", HOME, base + "/xapi", "unit:secret", Progress.NONE);
            // RFC 7617: base64 of unit:secret
            assertThat(heads)
                    .isNotEmpty()
                    .allMatch(h -> h.equals("POST 2.0.0 application/json Basic dW5pdDpzZWNyZXQ="));
            int sent = bodies.stream()
                    .mapToInt(b -> JsonMapper.shared().readTree(b).size())
                    .sum();
            assertThat(sent).isEqualTo(done.statements());
            int before = bodies.size();
            // port 1 answers nowhere
            assertThatThrownBy(() -> job.send("D-017", HOME, "http://127.0.0.1:1/xapi", null, Progress.NONE))
                    .hasMessageContaining("cannot be reached");
            assertThatThrownBy(() -> job.send("D-017", HOME, base + "/closed", null, Progress.NONE))
                    .hasMessageContaining("401")
                    .hasMessageContaining("SIDEPORT_XAPI_LOGIN");
            assertThatThrownBy(() -> job.send("D-017", HOME, base + "/moved", null, Progress.NONE))
                    .hasMessageContaining("307");
            assertThat(bodies).hasSize(before);
            assertThatThrownBy(() -> job.send("D-017", HOME, "http://store.example/xapi", null, Progress.NONE))
                    .hasMessageContaining("unencrypted");
            assertThatThrownBy(() -> job.send("D-017", "not an iri", base + "/xapi", null, Progress.NONE))
                    .isInstanceOf(InputException.class);
        } finally {
            server.stop(0);
        }
    }
}
