package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.console.Console;
import org.sideport.media.voice.VoiceReader;
import org.sideport.media.voice.VoiceWriter;
import org.sideport.model.Comment;
import org.sideport.model.MediaTime;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.CommentSession;
import org.sideport.workflow.VoiceKeeping;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A spoken comment of one second over a picture that stands at 30 s, then runs at half speed. */
class SpokenCommandsTest {

    @TempDir
    Path folder;

    private Path dir;
    private String id = "";

    private record Result(int code, String out, String err) {
        JsonNode json() {
            return JsonMapper.builder().build().readTree(out);
        }
    }

    @BeforeEach
    void aSpokenComment() {
        dir = folder.resolve("w");
        try (Workspace workspace = FreshWorkspace.in(dir)) {
            workspace.change(stores -> stores.cases()
                    .add(new SurgicalCase("C-12", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
            VoiceKeeping keeping = new VoiceKeeping(workspace);
            id = CommentSession.newId();
            Path part = keeping.begin(id);
            try (VoiceWriter writer = VoiceWriter.create(part)) {
                writer.write(new short[VoiceWriter.RATE], VoiceWriter.RATE);
                writer.finish();
            }
            SeenTrack seen = new SeenTrack(List.of(
                    new SeenEvent.Stand(0, MediaTime.ofSeconds(30)),
                    new SeenEvent.Run(400_000, MediaTime.ofSeconds(30), 0.5)));
            Comment comment = keeping.finish(part, id, "A1", seen, MediaTime.ofSeconds(100));
            new CommentCase(workspace).open("C-12", "A1").save(comment);
        }
    }

    private Result run(String... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        List<String> all = new ArrayList<>(Arrays.asList(args));
        all.addAll(List.of("--workspace", dir.toString()));
        int code = new CommandTree(new Console(
                        new PrintWriter(out, true),
                        new PrintWriter(err, true),
                        Map.of("SIDEPORT_CONFIG", folder.toString()),
                        folder))
                .run(all.toArray(String[]::new));
        return new Result(code, out.toString(), err.toString());
    }

    @Test
    void theListTellsWhatWasSeenAndForHowLongSomebodySpoke() {
        JsonNode voice =
                run("comments", "list", "--case", "C-12", "--json").json().at("/comments/0/voice");
        assertThat(voice.at("/length_us").asLong()).isEqualTo(1_000_000);
        assertThat(voice.at("/seen/0/event").asString()).isEqualTo("stand");
        assertThat(voice.at("/seen/0/time_us").asLong()).isEqualTo(30_000_000);
        assertThat(voice.at("/seen/1/at_us").asLong()).isEqualTo(400_000);
        assertThat(voice.at("/seen/1/rate").asDouble()).isEqualTo(0.5);
        assertThat(run("comments", "list", "--case", "C-12").out())
                .contains("spoken for 0:01.000")
                .contains(id.substring(0, 8));
    }

    @Test
    void theSoundIsCopiedOutOnlyWhenAskedForAndNotOverAnotherFile() throws Exception {
        Path out = folder.resolve("words.ogg");
        Result done = run("comments", "voice", "--case", "C-12", "--id", id.substring(0, 8), "--out", out.toString());
        assertThat(done.code()).as(done.err()).isZero();
        assertThat(done.out()).contains("tells who speaks");
        assertThat(VoiceReader.lengthUs(out)).isEqualTo(1_000_000);
        assertThat(run("comments", "voice", "--case", "C-12", "--id", id, "--out", out.toString())
                        .code())
                .isEqualTo(2);
        assertThat(run("comments", "voice", "--case", "C-12", "--id", "zz", "--out", "x.ogg")
                        .err())
                .contains("no spoken comment zz");

        Path voices = folder.resolve("voices");
        run("comments", "export", "--case", "C-12", folder.resolve("all.json").toString());
        assertThat(voices).doesNotExist();
        Result export = run(
                "comments",
                "export",
                "--case",
                "C-12",
                "--voices",
                voices.toString(),
                folder.resolve("more.json").toString());
        assertThat(export.code()).as(export.err()).isZero();
        try (var files = Files.list(voices)) {
            assertThat(files).hasSize(1);
        }
    }

    @Test
    void captionsArePutBesideTheVoice() throws Exception {
        Path file = Files.writeString(folder.resolve("words.srt"), "1\n00:00:00,200 --> 00:00:00,900\nhold it here\n");
        Result done = run("comments", "captions", "--case", "C-12", "--id", id, file.toString(), "--json");
        assertThat(done.code()).as(done.err()).isZero();
        JsonNode captions =
                run("comments", "list", "--case", "C-12", "--json").json().at("/comments/0/voice/captions");
        assertThat(captions.size()).isEqualTo(1);
        assertThat(captions.at("/0/from_us").asLong()).isEqualTo(200_000);
        assertThat(captions.at("/0/text").asString()).isEqualTo("hold it here");

        Path late = Files.writeString(folder.resolve("late.srt"), "1\n00:00:05,000 --> 00:00:06,000\nlate\n");
        Result refused = run("comments", "captions", "--case", "C-12", "--id", id, late.toString());
        assertThat(refused.code()).isEqualTo(2);
        assertThat(refused.err()).contains("after the end of the voice");
    }
}
