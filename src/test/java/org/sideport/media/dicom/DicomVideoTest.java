package org.sideport.media.dicom;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.demo.FrameStamp;
import org.sideport.media.FrameIndexCache;
import org.sideport.media.FramePicture;
import org.sideport.media.FrameRef;
import org.sideport.media.MediaException;
import org.sideport.media.MediaException.Reason;
import org.sideport.media.MediaProbe;
import org.sideport.media.MediaWarning;
import org.sideport.media.MediaWarning.Code;
import org.sideport.media.ProbedFile;
import org.sideport.media.RecordingFrames;
import org.sideport.media.WrittenVideo;
import org.sideport.media.corpus.StampedFile;
import org.sideport.media.corpus.Stamps;
import org.sideport.media.export.Clip;
import org.sideport.media.export.NeutralCopy;
import org.sideport.media.export.NeutralNames;
import org.sideport.media.trace.TraceComputer;
import org.sideport.media.trace.TraceKind;
import org.sideport.media.trace.Traces;
import org.sideport.model.FileRanges;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/** Videos with a number in each picture, put into DICOM objects by {@link DicomFile}. 50 frames, 25 a second. */
class DicomVideoTest {

    private static final int COUNT = 50;

    @TempDir
    Path folder;

    private byte[] video(String coder, String container) throws IOException {
        Path plain = folder.resolve("plain." + container);
        StampedFile.frames(COUNT, 25).as(coder, container).b(2).write(plain);
        return Files.readAllBytes(plain);
    }

    private byte[] h264() throws IOException {
        return video("libx264", "mp4");
    }

    @ParameterizedTest
    @CsvSource({
        "libx264,    mp4,    1.2.840.10008.1.2.4.102,   1",
        "libx264,    mp4,    1.2.840.10008.1.2.4.102.1, 7",
        "libx264,    mpegts, 1.2.840.10008.1.2.4.104,   1",
        "libx264,    mpegts, 1.2.840.10008.1.2.4.104.1, 40",
        "mpeg2video, mpegts, 1.2.840.10008.1.2.4.100,   1",
        "mpeg2video, vob,    1.2.840.10008.1.2.4.101.1, 5"
    })
    void everyFrameInsideHasItsTimeAndItsPicture(String coder, String container, String syntax, int fragments)
            throws Exception {
        // the name says nothing: DICOM is known by its content
        Path file = folder.resolve("IM0001");
        DicomFile.of(syntax).timing("50", "25", "40").fragments(fragments).write(file, video(coder, container));

        ProbedFile probed = MediaProbe.probe(file, new FrameIndexCache(folder.resolve("index")), Progress.NONE);

        assertThat(probed.segment().frames()).isEqualTo(COUNT);
        assertThat(probed.segment().durationUs()).isEqualTo(COUNT * 40_000L);
        // as outside of DICOM, the muxer gives no time to some pictures of a program stream
        assertThat(codes(probed))
                .filteredOn(code -> code != Code.TIMES_GUESSED)
                .containsExactly(Code.IDENTITY_IN_HEADER);
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            for (int i = 0; i < COUNT; i++) {
                int n = i * 17 % COUNT == 0 && i > 0 ? i : i * 17 % COUNT;
                FrameRef frame = frames.frameAt(MediaTime.ofMicros(n * 40_000L));
                FramePicture picture = frames.picture(frame);
                assertThat(frame.start().micros()).isEqualTo(n * 40_000L);
                assertThat(stamp(picture)).hasValue(n);
            }
        }
    }

    private static OptionalInt stamp(FramePicture picture) {
        return OptionalInt.of(Stamps.read(picture));
    }

    private static List<Code> codes(ProbedFile probed) {
        // the folder of a test has a number in its name
        return probed.warnings().stream()
                .map(MediaWarning::code)
                .filter(code -> code != Code.IDENTITY_IN_NAME)
                .toList();
    }

    @Test
    void manyObjectsCanBeOpenAtOnce() throws Exception {
        Path file = DicomFile.of(DicomFile.H264).fragments(3).write(folder.resolve("a.dcm"), h264());
        java.util.ArrayList<RecordingFrames> open = new java.util.ArrayList<>();
        try {
            // the native side holds ten callbacks of a kind
            for (int i = 0; i < 14; i++) {
                RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE);
                open.add(frames);
                assertThat(stamp(frames.picture(frames.frameAt(MediaTime.ofMicros(i * 40_000L)))))
                        .hasValue(i);
            }
        } finally {
            open.forEach(RecordingFrames::close);
        }
    }

    @Test
    void theFragmentsJoinedAreTheVideoByteForByte() throws Exception {
        byte[] video = h264();
        Path file = DicomFile.of(DicomFile.H264).fragments(9).withOffsetTable().write(folder.resolve("a.dcm"), video);
        FileRanges stream = DicomVideo.streamIn(file).orElseThrow();
        assertThat(stream.ranges()).hasSize(9);
        byte[] joined = new byte[(int) stream.size()];
        try (FileRanges.Reader reader = stream.open()) {
            byte[] buffer = new byte[1000];
            int at = 0;
            int read;
            while ((read = reader.read(buffer, buffer.length)) > 0) {
                System.arraycopy(buffer, 0, joined, at, read);
                at += read;
            }
            assertThat(at).isEqualTo(joined.length);
            // PS3.5, A.4: a byte may follow so that the length is even
            assertThat(Arrays.copyOf(joined, video.length)).isEqualTo(video);
            assertThat(joined.length - video.length).isBetween(0, 1);
            reader.seek(video.length / 2);
            assertThat(reader.read(buffer, 1)).isEqualTo(1);
            assertThat(buffer[0]).isEqualTo(video[video.length / 2]);
            reader.seek(joined.length);
            assertThat(reader.read(buffer, 1)).isEqualTo(-1);
        }
    }

    @Test
    void aWarningNamesTheKindsOfPatientDataAndNoneOfItsWords() throws Exception {
        Path file = DicomFile.of(DicomFile.H264).write(folder.resolve("a.dcm"), h264());
        ProbedFile probed = MediaProbe.probe(file, Progress.NONE);
        assertThat(DicomVideo.find(file).patientData())
                .containsExactlyInAnyOrder(
                        PatientData.PATIENT,
                        PatientData.PERSONS,
                        PatientData.DATES,
                        PatientData.PLACE,
                        PatientData.PRIVATE);
        String all = probed.toString() + DicomVideo.find(file);
        DicomFile.SECRETS.forEach(secret -> assertThat(all).doesNotContain(secret));
        assertThat(probed.segment().identityTags()).isEmpty();
        Path without = DicomFile.of(DicomFile.H264).withoutPatient().write(folder.resolve("b.dcm"), h264());
        assertThat(codes(MediaProbe.probe(without, Progress.NONE))).isEmpty();
    }

    @Test
    void aNeutralCopyIsAPlainVideoWithoutAnyWordOfTheHeader() throws Exception {
        Path file = DicomFile.of(DicomFile.H264).fragments(4).write(folder.resolve("a.dcm"), h264());
        Path copy = NeutralNames.propose(List.of(file), folder, "case-0001").get(0);
        assertThat(copy.toString()).endsWith(".mp4");
        NeutralCopy.Result result = NeutralCopy.write(file, false, false, copy, false, Progress.NONE);
        assertThat(result.frames()).isEqualTo(COUNT);
        String bytes = Files.readString(copy, StandardCharsets.ISO_8859_1);
        assertThat(bytes.substring(4, 8)).isEqualTo("ftyp");
        DicomFile.SECRETS.forEach(secret -> {
            assertThat(bytes).doesNotContain(secret);
            assertThat(result.toString()).doesNotContain(secret);
        });
        assertThat(result.toString()).contains("patient");
        assertThat(WrittenVideo.read(copy).frames()).hasSize(COUNT);
    }

    @Test
    void tracesAndClipsTakeAnObjectAsTheyTakeAVideo() throws Exception {
        Path plain = folder.resolve("plain.mp4");
        Path file = DicomFile.of(DicomFile.H264).fragments(4).write(folder.resolve("a.dcm"), h264());
        Traces inside = TraceComputer.compute(List.of(file), 5, Progress.NONE);
        Traces outside = TraceComputer.compute(List.of(plain), 5, Progress.NONE);
        assertThat(inside.size()).isEqualTo(10);
        assertThat(inside.of(TraceKind.SHARPNESS)).isEqualTo(outside.of(TraceKind.SHARPNESS));
        Path clip = folder.resolve("clip.mp4");
        // from 0.4 s until before 1.0 s: frames 10 to 24
        Clip.exact(
                List.of(file), MediaTime.ofMicros(400_000), MediaTime.ofSeconds(1), false, clip, false, Progress.NONE);
        List<WrittenVideo.Frame> frames = WrittenVideo.read(clip).frames();
        assertThat(frames).hasSize(15);
        assertThat(FrameStamp.read(frames.get(0).argb(), 160, 120)).hasValue(10);
        assertThat(FrameStamp.read(frames.get(14).argb(), 160, 120)).hasValue(24);
        String bytes = Files.readString(clip, StandardCharsets.ISO_8859_1);
        DicomFile.SECRETS.forEach(secret -> assertThat(bytes).doesNotContain(secret));
    }

    @ParameterizedTest
    @CsvSource({
        "51, 25, 40,    51 frames, '50'",
        "50, 30, 40,    30 frames a second, '25'",
        "50, 25, 33.33, 33.33 ms a frame, '40'"
    })
    void whereHeaderAndStreamDisagreeTheStreamWinsAndAWarningSaysSo(
            String frames, String rate, String ms, String said, String is) throws Exception {
        Path file = DicomFile.of(DicomFile.H264).timing(frames, rate, ms).write(folder.resolve("a.dcm"), h264());
        ProbedFile probed = MediaProbe.probe(file, Progress.NONE);
        assertThat(probed.segment().frames()).isEqualTo(COUNT);
        assertThat(probed.warnings())
                .filteredOn(w -> w.code() == Code.HEADER_DIFFERS)
                .singleElement()
                .satisfies(w -> assertThat(w.text()).contains(said).contains(is));
    }

    @ParameterizedTest
    @CsvSource({
        "1.2.840.10008.1.2,      implicit",
        "1.2.840.10008.1.2.1,    uncompressed",
        "1.2.840.10008.1.2.1.99, deflated",
        "1.2.840.10008.1.2.2,    big endian",
        "1.2.840.10008.1.2.4.50, one by one",
        "1.2.840.10008.1.2.5,    none of those for video"
    })
    void otherTransferSyntaxesAreRefusedWithAWayOut(String syntax, String why) throws Exception {
        Path file = DicomFile.of(syntax).write(folder.resolve("a.dcm"), new byte[1000]);
        refused(file, Reason.NO_VIDEO, why);
    }

    @Test
    void otherObjectsAreRefusedWithAWayOut() throws Exception {
        byte[] video = h264();
        // CT image storage, and the directory of a disc (PS3.4 B.5, PS3.10)
        Path ct = DicomFile.of(DicomFile.H264)
                .sopClass("1.2.840.10008.5.1.4.1.1.2")
                .write(folder.resolve("ct.dcm"), video);
        refused(ct, Reason.NO_VIDEO, "SOP class is 1.2.840.10008.5.1.4.1.1.2");
        Path directory = DicomFile.of("1.2.840.10008.1.2.1")
                .sopClass("1.2.840.10008.1.3.10")
                .write(folder.resolve("DICOMDIR"), video);
        refused(directory, Reason.NO_VIDEO, "DICOMDIR");
        Path plain = DicomFile.of(DicomFile.H264).notEncapsulated().write(folder.resolve("raw.dcm"), video);
        refused(plain, Reason.UNREADABLE, "not encapsulated");
    }

    @Test
    void anObjectThatEndsTooEarlyIsRefusedWhereverItIsCut() throws Exception {
        byte[] whole = DicomFile.of(DicomFile.H264).fragments(3).bytes(h264());
        int[] cuts = {140, 201, 399, 701, whole.length / 2, whole.length - 9, whole.length - 4};
        for (int cut : cuts) {
            Path file = Files.write(folder.resolve("cut.dcm"), Arrays.copyOf(whole, cut));
            refused(file, Reason.CUT_SHORT, "cut short");
        }
    }

    @Test
    void anInnerVideoThatWasNeverClosedSaysSo() throws Exception {
        byte[] video = h264();
        int moov = new String(video, StandardCharsets.ISO_8859_1).lastIndexOf("moov") - 4;
        Path file = DicomFile.of(DicomFile.H264).write(folder.resolve("a.dcm"), Arrays.copyOf(video, moov));
        refused(file, Reason.UNFINISHED, "table of contents");
    }

    private static void refused(Path file, Reason reason, String why) {
        assertThatThrownBy(() -> MediaProbe.probe(file, Progress.NONE))
                .isInstanceOfSatisfying(MediaException.class, e -> {
                    assertThat(e.reason()).as(e.getMessage()).isEqualTo(reason);
                    assertThat(e.what()).contains(why);
                    assertThat(e.remedy()).isNotBlank();
                    DicomFile.SECRETS.forEach(
                            secret -> assertThat(e.getMessage()).doesNotContain(secret));
                });
    }
}
