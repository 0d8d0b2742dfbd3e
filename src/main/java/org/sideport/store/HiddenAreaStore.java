package org.sideport.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;

/** Areas of a case's picture that nothing handed out may show, nor who marks the case blind may see. */
public final class HiddenAreaStore {

    private final Handle handle;
    private final Veil veil;
    private final AuditStore audit;

    HiddenAreaStore(Handle handle, Veil veil, AuditStore audit) {
        this.handle = handle;
        this.veil = veil;
        this.audit = audit;
    }

    /**
     * The areas of a case in the order in which they were given.
     *
     * @throws InputException if there is no such case
     */
    public List<MaskArea> of(String caseCode) {
        long id = veil.caseId(caseCode);
        return byCase(handle, id).getOrDefault(id, List.of());
    }

    /** @param only the id of one case; {@code null} for all that have areas and are in reach */
    static Map<Long, List<MaskArea>> byCase(Handle handle, @Nullable Long only) {
        Map<Long, List<MaskArea>> areas = new HashMap<>();
        handle.createQuery("select * from hidden_area" + (only == null ? "" : " where case_id = " + only)
                        + " order by case_id, ordinal")
                .map((row, context) -> Map.entry(row.getLong("case_id"), area(row)))
                .forEach(entry -> areas.computeIfAbsent(entry.getKey(), id -> new ArrayList<>())
                        .add(entry.getValue()));
        return areas;
    }

    private static MaskArea area(ResultSet row) throws SQLException {
        boolean ends = row.getObject("to_us") != null;
        return new MaskArea(
                row.getInt("x"),
                row.getInt("y"),
                row.getInt("width"),
                row.getInt("height"),
                MediaTime.ofMicros(row.getLong("from_us")),
                ends ? MediaTime.ofMicros(row.getLong("to_us")) : null);
    }

    /**
     * Puts these areas in the place of those that are there.
     *
     * @throws InputException if there is no such case, or it is marked blind
     */
    public void replace(String caseCode, List<MaskArea> areas) {
        if (veil.through(caseCode).isPresent()) {
            throw new InputException(
                    caseCode + " is marked blind: what is hidden cannot be changed",
                    null,
                    "let somebody who is not blinded change it");
        }
        List<MaskArea> before = of(caseCode);
        if (before.equals(areas)) {
            return;
        }
        long id = veil.caseId(caseCode);
        audit.add("case.hide", caseCode, text(before), text(areas));
        handle.execute("delete from hidden_area where case_id = ?", id);
        for (int i = 0; i < areas.size(); i++) {
            MaskArea area = areas.get(i);
            MediaTime to = area.to();
            handle.execute(
                    "insert into hidden_area (case_id, ordinal, x, y, width, height, from_us, to_us)"
                            + " values (?, ?, ?, ?, ?, ?, ?, ?)",
                    id,
                    i,
                    area.x(),
                    area.y(),
                    area.width(),
                    area.height(),
                    area.from().micros(),
                    to == null ? null : (Long) to.micros());
        }
    }

    private static String text(List<MaskArea> areas) {
        return areas.stream().map(MaskArea::text).collect(Collectors.joining(" "));
    }
}
