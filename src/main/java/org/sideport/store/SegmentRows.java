package org.sideport.store;

import java.nio.file.Path;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Segment;

/** Rows of the segment table. Paths are kept relative to the workspace, so that both may move together. */
final class SegmentRows {

    private static final String LINE = "\n";

    private final Handle handle;
    private final Path dir;

    SegmentRows(Handle handle, Path dir) {
        this.handle = handle;
        this.dir = dir;
    }

    void insert(long caseId, List<Segment> segments) {
        for (int i = 0; i < segments.size(); i++) {
            Segment s = segments.get(i);
            handle.createUpdate(
                            "insert into segment (case_id, ordinal, path, sha256, size, duration_us, frames, first_us,"
                                    + " fps_num, fps_den, variable_rate, codec, width, height, sample_aspect, rotation,"
                                    + " interlaced, audio, identity_tags) values (:caseId, :ordinal, :path, :sha256,"
                                    + " :size, :durationUs, :frames, :firstUs, :fpsNum, :fpsDen, :variableRate, :codec,"
                                    + " :width, :height, :sampleAspect, :rotation, :interlaced, :audio, :tags)")
                    .bind("caseId", caseId)
                    .bind("ordinal", i)
                    .bind("path", toStored(s.file()))
                    .bind("sha256", s.sha256())
                    .bind("size", s.size())
                    .bind("durationUs", s.durationUs())
                    .bind("frames", s.frames())
                    .bind("firstUs", s.firstUs())
                    .bind("fpsNum", s.fpsNum())
                    .bind("fpsDen", s.fpsDen())
                    .bind("variableRate", s.variableRate())
                    .bind("codec", s.codec())
                    .bind("width", s.width())
                    .bind("height", s.height())
                    .bind("sampleAspect", s.sampleAspect())
                    .bind("rotation", s.rotation())
                    .bind("interlaced", s.interlaced())
                    .bind("audio", s.audio())
                    .bind("tags", String.join(LINE, s.identityTags()))
                    .execute();
        }
    }

    void updatePaths(long caseId, List<Segment> segments) {
        for (int i = 0; i < segments.size(); i++) {
            if (NeutralNames.isNeutral(segments.get(i).file(), dir)) {
                continue;
            }
            handle.execute(
                    "update segment set path = ? where case_id = ? and ordinal = ?",
                    toStored(segments.get(i).file()),
                    caseId,
                    i);
        }
    }

    /** @param only a case's id, or {@code null} for all */
    Map<Long, List<Segment>> load(@Nullable Long only) {
        Map<Long, List<Segment>> byCase = new LinkedHashMap<>();
        handle.createQuery("select * from segment" + (only == null ? "" : " where case_id = " + only)
                        + " order by case_id, ordinal")
                .map((row, context) -> Map.entry(row.getLong("case_id"), segment(row)))
                .forEach(entry -> byCase.computeIfAbsent(entry.getKey(), id -> new ArrayList<>())
                        .add(entry.getValue()));
        return byCase;
    }

    private Segment segment(ResultSet row) throws SQLException {
        return new Segment(
                dir.resolve(row.getString("path")).normalize(),
                row.getString("sha256"),
                row.getLong("size"),
                row.getLong("duration_us"),
                row.getLong("frames"),
                row.getLong("first_us"),
                row.getLong("fps_num"),
                row.getLong("fps_den"),
                row.getBoolean("variable_rate"),
                row.getString("codec"),
                row.getInt("width"),
                row.getInt("height"),
                row.getString("sample_aspect"),
                row.getInt("rotation"),
                row.getBoolean("interlaced"),
                row.getBoolean("audio"),
                row.getString("identity_tags").lines().toList());
    }

    private String toStored(Path file) {
        return toStored(dir, file);
    }

    /** A file's path as a workspace in {@code dir} keeps it. */
    static String toStored(Path dir, Path file) {
        Path absolute = file.toAbsolutePath().normalize();
        boolean sameRoot = java.util.Objects.equals(absolute.getRoot(), dir.getRoot());
        return sameRoot ? dir.relativize(absolute).toString().replace('\\', '/') : absolute.toString();
    }
}
