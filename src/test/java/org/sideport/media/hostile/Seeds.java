package org.sideport.media.hostile;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import org.sideport.media.corpus.StampedFile;
import org.sideport.media.dicom.DicomFile;

/** Small whole files of every container that recorders and archives write. */
final class Seeds {

    private Seeds() {}

    static Map<String, byte[]> all(Path folder) throws IOException {
        Map<String, byte[]> seeds = new LinkedHashMap<>();
        seeds.put("mp4", make(folder, tiny().b(2).sound(0, 0.3), "libx264", "mp4"));
        seeds.put("frag", make(folder, tiny().option("movflags", "frag_keyframe+empty_moov"), "libx264", "mp4"));
        seeds.put("mkv", make(folder, tiny().b(2).sound(0, 0.3), "libx264", "matroska"));
        seeds.put("avi", make(folder, tiny(), "mpeg4", "avi"));
        seeds.put("ts", make(folder, tiny().b(2).sound(0, 0.3), "libx264", "mpegts"));
        seeds.put("ps", make(folder, tiny().b(2).sound(0, 0.3), "mpeg2video", "vob"));
        seeds.put("dcm", DicomFile.of(DicomFile.H264).timing("12", "25", "40").bytes(seeds.get("mp4")));
        seeds.put("dcm-ts", DicomFile.of(DicomFile.MPEG2).fragments(5).bytes(seeds.get("ts")));
        return seeds;
    }

    private static StampedFile tiny() {
        return StampedFile.frames(12, 25).size(64, 48).gop(4);
    }

    private static byte[] make(Path folder, StampedFile recipe, String coder, String container) throws IOException {
        Path file = folder.resolve("seed." + container);
        recipe.as(coder, container).write(file);
        return Files.readAllBytes(file);
    }
}
