package org.sideport.media.dicom;

import java.io.EOFException;
import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaException;
import org.sideport.media.MediaException.Reason;
import org.sideport.media.dicom.ElementReader.Head;
import org.sideport.media.dicom.ElementReader.MalformedHeader;
import org.sideport.model.FileRanges;
import org.sideport.model.FileRanges.Range;

/**
 * Walks a DICOM file (PS3.10 chapter 7) to its pixel data. Values are passed over unread but for the few that tell what
 * the object is and how its frames are timed.
 */
final class DicomReader {

    private static final int PREAMBLE = 128;

    private static final int TRANSFER_SYNTAX = 0x00020010;
    private static final int MEDIA_SOP_CLASS = 0x00020002;
    private static final int SOP_CLASS = 0x00080016;
    private static final int CINE_RATE = 0x00180040;
    private static final int FRAME_TIME = 0x00181063;
    private static final int FRAMES = 0x00280008;
    private static final int PIXELS = 0x7FE00010;

    private static final String STORAGE = "1.2.840.10008.5.1.4.1.1.";
    private static final String DIRECTORY = "1.2.840.10008.1.3.10";

    /** Video endoscopic, microscopic, photographic; multi-frame true colour secondary capture (PS3.4, table B.5-1). */
    private static final Set<String> VIDEO_CLASSES =
            Set.of(STORAGE + "77.1.1.1", STORAGE + "77.1.2.1", STORAGE + "77.1.4.1", STORAGE + "7.4");

    private static final int DEEPEST = 32;

    /** A header has some hundreds; the fragments of an hour of video may be some ten thousand. */
    private static final int MOST_ELEMENTS = 1_000_000;

    private static final int LONGEST_VALUE = 128;

    private final Path file;
    private final ElementReader in;
    private final Set<PatientData> patientData = EnumSet.noneOf(PatientData.class);
    private int elements;
    private String syntax = "";
    private String sopClass = "";
    private @Nullable Double frames;
    private @Nullable Double cineRate;
    private @Nullable Double frameTime;

    private DicomReader(Path file, ElementReader in) {
        this.file = file;
        this.in = in;
    }

    static @Nullable DicomVideo read(Path file) {
        boolean known = false;
        try (SeekableByteChannel open = Files.newByteChannel(file)) {
            ElementReader in = new ElementReader(open, open.size());
            if (in.size() < PREAMBLE + 4) {
                return null;
            }
            in.seek(PREAMBLE);
            if (!in.text(4).equals("DICM")) {
                return null;
            }
            known = true;
            return new DicomReader(file, in).video();
        } catch (EOFException e) {
            throw refuse(
                    file,
                    Reason.CUT_SHORT,
                    "this DICOM object is cut short: it ends before its video does",
                    "copy or export it again from the archive");
        } catch (MalformedHeader e) {
            throw refuse(
                    file,
                    Reason.UNREADABLE,
                    "the header of this DICOM object is damaged (" + e.getMessage() + ")",
                    "copy or export it again from the archive");
        } catch (IOException e) {
            if (!known) {
                return null;
            }
            throw refuse(file, Reason.UNREADABLE, "cannot be read", "check the drive it is on");
        }
    }

    private static MediaException refuse(Path file, Reason reason, String what, String remedy) {
        return new MediaException(reason, what, file.toString(), remedy);
    }

    private DicomVideo video() throws IOException {
        metaGroup();
        requireVideo(sopClass);
        while (true) {
            Head head = count(in.explicit());
            if (head.tag() == PIXELS) {
                requireVideo(sopClass);
                return new DicomVideo(
                        new FileRanges(file, fragments(head)),
                        syntax,
                        frames == null ? null : (Long) Math.round(frames),
                        cineRate,
                        frameTime,
                        patientData);
            }
            element(head);
            if (in.position() == in.size()) {
                throw refuse(
                        file,
                        Reason.NO_VIDEO,
                        "this DICOM object has no pictures, or is cut short before them",
                        "choose the object that holds the recording, or export it again from the archive");
            }
        }
    }

    /** The file meta information (PS3.10, 7.1): always explicit, little endian. */
    private void metaGroup() throws IOException {
        while (true) {
            long at = in.position();
            int group = in.uint16();
            in.seek(at);
            if (group != 0x0002) {
                break;
            }
            Head head = count(in.explicit());
            if (head.isUndefined()) {
                throw new MalformedHeader("a value of undefined length in the file meta information");
            }
            switch (head.tag()) {
                case TRANSFER_SYNTAX -> syntax = value(head);
                case MEDIA_SOP_CLASS -> sopClass = value(head);
                default -> in.skip(head.length());
            }
        }
        if (sopClass.equals(DIRECTORY)) {
            throw refuse(
                    file,
                    Reason.NO_VIDEO,
                    "this is the table of contents of a DICOM disc (DICOMDIR)",
                    "choose the object itself; the largest file of the disc is a good guess");
        }
        if (syntax.isEmpty()) {
            throw new MalformedHeader("no transfer syntax");
        }
        if (!TransferSyntax.isVideo(syntax)) {
            throw refuse(
                    file,
                    Reason.NO_VIDEO,
                    "this DICOM object cannot be used: " + TransferSyntax.obstacle(syntax),
                    "export it from the archive as MPEG-2, H.264 or HEVC video, or as an MP4 file");
        }
    }

    private void requireVideo(String uid) {
        if (!uid.isEmpty() && !VIDEO_CLASSES.contains(uid)) {
            throw refuse(
                    file,
                    Reason.NO_VIDEO,
                    "this DICOM object is no video endoscopic, microscopic or photographic image (its SOP class is "
                            + printable(uid) + ")",
                    "choose the object that holds the recording");
        }
    }

    private static String printable(String uid) {
        return uid.matches("[0-9.]{1,64}") ? uid : "not readable";
    }

    private Head count(Head head) throws MalformedHeader {
        if (++elements > MOST_ELEMENTS) {
            throw new MalformedHeader("more than " + MOST_ELEMENTS + " elements");
        }
        return head;
    }

    private void element(Head head) throws IOException {
        note(head);
        switch (head.tag()) {
            case SOP_CLASS -> sopClass = value(head);
            case FRAMES -> frames = number(head);
            case CINE_RATE -> cineRate = number(head);
            case FRAME_TIME -> frameTime = number(head);
            default -> pass(head, 0);
        }
    }

    private void note(Head head) {
        PatientData kind = head.length() == 0 ? null : PatientData.of(head.group(), head.element());
        if (kind != null) {
            patientData.add(kind);
        }
    }

    /** Goes on behind the value; sequences of undefined length have to be walked through. */
    private void pass(Head head, int depth) throws IOException {
        if (!head.isUndefined()) {
            in.skip(head.length());
            return;
        }
        if (!head.vr().equals("SQ") && !head.vr().equals("UN") && !head.vr().isEmpty()) {
            throw new MalformedHeader("a value without length that is no sequence");
        }
        // a sequence of unknown representation is encoded without representations (PS3.5, 6.2.2, note 4)
        sequence(head.vr().equals("SQ"), depth + 1);
    }

    private void sequence(boolean explicit, int depth) throws IOException {
        if (depth > DEEPEST) {
            throw new MalformedHeader("sequences within sequences without end");
        }
        while (true) {
            Head item = count(in.implicit());
            if (item.tag() == ElementReader.SEQUENCE_END) {
                return;
            }
            if (item.tag() != ElementReader.ITEM) {
                throw new MalformedHeader("no item where one must be");
            }
            if (!item.isUndefined()) {
                in.skip(item.length());
                continue;
            }
            while (true) {
                Head head = count(explicit ? in.explicit() : in.implicit());
                if (head.tag() == ElementReader.ITEM_END) {
                    break;
                }
                note(head);
                pass(head, depth);
            }
        }
    }

    /** The items of encapsulated pixel data (PS3.5, A.4), without the offset table that comes first. */
    private List<Range> fragments(Head pixels) throws IOException {
        if (!pixels.isUndefined()) {
            throw refuse(
                    file,
                    Reason.UNREADABLE,
                    "the pictures of this DICOM object are not encapsulated, though its transfer syntax says so",
                    "export it again from the archive");
        }
        List<Range> found = new ArrayList<>();
        boolean table = true;
        while (true) {
            Head item = count(in.implicit());
            if (item.tag() == ElementReader.SEQUENCE_END) {
                break;
            }
            if (item.tag() != ElementReader.ITEM || item.isUndefined()) {
                throw new MalformedHeader("no fragment where one must be");
            }
            long start = in.position();
            in.skip(item.length());
            if (!table && item.length() > 0) {
                found.add(new Range(start, item.length()));
            }
            table = false;
        }
        if (found.isEmpty()) {
            throw refuse(
                    file,
                    Reason.NO_VIDEO,
                    "this DICOM object has no pictures",
                    "choose the object that holds the recording");
        }
        return found;
    }

    private String value(Head head) throws IOException {
        if (head.isUndefined() || head.length() > LONGEST_VALUE) {
            throw new MalformedHeader("a value that is too long");
        }
        // padded with a zero or a space to even length
        return in.text((int) head.length()).replace('\0', ' ').strip();
    }

    /** {@code null} where there is no number: what the header says is a hint only. */
    private @Nullable Double number(Head head) throws IOException {
        try {
            double found = Double.parseDouble(value(head));
            return found > 0 && found < 1e12 ? (Double) found : null;
        } catch (NumberFormatException e) {
            return null;
        }
    }
}
