package org.sideport.media;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.sideport.media.MediaWarning.Code;
import org.sideport.media.dicom.DicomVideo;
import org.sideport.media.dicom.PatientData;

/** What people should know about the DICOM object around a video. No value of a patient's data is in it. */
final class DicomWarnings {

    /** A rate in the header is commonly rounded: 30 for 30000/1001. */
    private static final double TOLERATED_SHARE = 0.01;

    private DicomWarnings() {}

    static List<MediaWarning> of(DicomVideo dicom, FrameIndex index) {
        List<MediaWarning> warnings = new ArrayList<>();
        if (!dicom.patientData().isEmpty()) {
            warnings.add(new MediaWarning(
                    Code.IDENTITY_IN_HEADER,
                    "This is a DICOM object whose header carries data of a patient ("
                            + dicom.patientData().stream()
                                    .map(PatientData::words)
                                    .collect(Collectors.joining(", "))
                            + "). None of it is shown or stored; the file itself still has it. Use a neutral copy, and"
                            + " keep this file where the patient's records belong.",
                    0,
                    null));
        }
        List<String> doubts = doubts(dicom, index);
        if (!doubts.isEmpty()) {
            warnings.add(new MediaWarning(
                    Code.HEADER_DIFFERS,
                    "The DICOM header says " + String.join(" and ", doubts)
                            + ". The stream is believed: check that this is the whole recording.",
                    0,
                    null));
        }
        return warnings;
    }

    private static List<String> doubts(DicomVideo dicom, FrameIndex index) {
        List<String> doubts = new ArrayList<>();
        Long frames = dicom.frames();
        if (frames != null && frames != index.size()) {
            doubts.add(frames + " frames, the stream holds " + index.size());
        }
        double perSecond = index.durationUs() <= 0 ? 0 : index.size() * 1e6 / index.durationUs();
        Double cine = dicom.cineRate();
        // a whole number in the header
        if (cine != null && perSecond > 0 && Math.abs(cine - perSecond) > Math.max(0.5, cine * TOLERATED_SHARE)) {
            doubts.add(rate(cine) + " frames a second, the stream has " + rate(perSecond));
        }
        Double frameTime = dicom.frameTimeMs();
        if (frameTime != null && perSecond > 0) {
            double length = 1000 / perSecond;
            if (Math.abs(frameTime - length) > length * TOLERATED_SHARE) {
                doubts.add(rate(frameTime) + " ms a frame, the stream has " + rate(length));
            }
        }
        return doubts;
    }

    private static String rate(double value) {
        String text = String.format(Locale.ROOT, "%.2f", value);
        return text.endsWith(".00") ? text.substring(0, text.length() - 3) : text;
    }
}
