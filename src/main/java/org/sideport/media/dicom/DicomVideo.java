package org.sideport.media.dicom;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaException;
import org.sideport.model.FileRanges;

/**
 * A DICOM object that holds a video: where the stream lies in the file, what the header claims about its timing, and
 * that it has data of a patient. No value of such data is kept.
 *
 * @param stream the fragments of (7FE0,0010), which are an MPEG-TS, MPEG-PS or MP4 stream when put end to end (PS3.5, 8.2)
 * @param transferSyntax UID
 * @param frames Number of Frames (0028,0008); {@code null} if the header has none
 * @param cineRate Cine Rate (0018,0040), frames a second; {@code null} if the header has none
 * @param frameTimeMs Frame Time (0018,1063), milliseconds; {@code null} if the header has none
 */
public record DicomVideo(
        FileRanges stream,
        String transferSyntax,
        @Nullable Long frames,
        @Nullable Double cineRate,
        @Nullable Double frameTimeMs,
        Set<PatientData> patientData) {

    public DicomVideo {
        patientData =
                patientData.isEmpty() ? Set.of() : java.util.Collections.unmodifiableSet(EnumSet.copyOf(patientData));
    }

    /**
     * Looks into a file, whatever its name.
     *
     * @return {@code null} if it is no DICOM file
     * @throws MediaException if it is one without a video that can be read, or is cut short
     */
    public static @Nullable DicomVideo find(Path file) {
        return DicomReader.read(file);
    }

    /** Where the video lies in a file; empty for a file that is no DICOM object, or none that can be read. */
    public static Optional<FileRanges> streamIn(Path file) {
        try {
            DicomVideo found = find(file);
            return found == null ? Optional.empty() : Optional.of(found.stream());
        } catch (MediaException e) {
            return Optional.empty();
        }
    }
}
