package org.sideport.demo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import org.sideport.model.Progress;
import org.sideport.model.Rubric;

/** Makes the demo's recordings, their truth files and the invented cohort around them. */
public final class DemoGenerator {

    private static final int QUALITY = 28;

    /** Ticks per second of the files: exact for 25 and for 30000/1001 frames a second. */
    private static final int TIMESCALE = 30_000;

    private final List<EyeScript> scripts;
    private final CohortGenerator cohort;

    /** The three recordings and the cohort of the demo. */
    public DemoGenerator() {
        this(EyeScripts.all(), new CohortGenerator(CohortGenerator.DEMO_SEED));
    }

    public DemoGenerator(List<EyeScript> scripts, CohortGenerator cohort) {
        this.scripts = List.copyOf(scripts);
        this.cohort = cohort;
    }

    /**
     * Writes everything into a folder, which is made if missing; files of the same names are replaced.
     *
     * @throws java.util.concurrent.CancellationException if cancelled; no half-made recording is left
     */
    public void writeAll(Path folder, Rubric rubric, Progress progress) throws IOException {
        writeRecordings(folder, progress.part(0, 0.97));
        progress.report(0.97, "Writing the cohort");
        cohort.write(folder, scripts, rubric);
        new CommentsWriter().write(folder);
        progress.report(1, "Done");
    }

    /** Recordings and truth files only. */
    public void writeRecordings(Path folder, Progress progress) throws IOException {
        Files.createDirectories(folder);
        TruthWriter truth = new TruthWriter();
        truth.writeTaggings(folder, scripts);
        for (int i = 0; i < scripts.size(); i++) {
            EyeScript script = scripts.get(i);
            truth.writeDetails(folder, script);
            record(folder, script, progress.part(i / (double) scripts.size(), (i + 1.0) / scripts.size()));
        }
    }

    private void record(Path folder, EyeScript script, Progress progress) throws IOException {
        EyePainter painter = new EyePainter(script);
        MachineHum hum = new MachineHum(script);
        int ticks = TIMESCALE * script.clock().den() / script.clock().num();
        VideoOptions silent = VideoOptions.silent(
                        script.shape().width(), script.shape().height(), TIMESCALE, ticks, QUALITY)
                .withSampleAspect(script.shape().aspectNum(), script.shape().aspectDen());
        VideoOptions options = script.sound() ? silent.withAudioRate(MachineHum.RATE) : silent;
        int frame = 0;
        for (int i = 0; i < script.files().size(); i++) {
            String name = script.files().get(i);
            try (VideoWriter writer = VideoWriter.open(folder.resolve(name), options)) {
                for (int n = 0; n < script.clock().fileFrames().get(i); n++, frame++) {
                    progress.check();
                    writer.frame(painter.paint(frame), (long) n * ticks);
                    if (script.sound()) {
                        writer.sound(hum.frame(frame));
                    }
                    if (frame % 25 == 0) {
                        progress.report(frame / (double) script.clock().frames(), "Drawing " + name);
                    }
                }
                writer.finish();
            }
        }
    }
}
