package org.sideport.store;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MeasuredShape;
import org.sideport.model.MeasuredValue;
import org.sideport.model.Measurement;
import org.sideport.model.MediaTime;
import org.sideport.model.WhiteToWhite;

/** What was measured on stills of cases. */
public final class MeasurementStore {

    private static final String COLUMNS = "select id, author, at_us, display_width, display_height, shape, points,"
            + " width_mm, width_sd_mm, width_own, method, warnings from still_measurement ";

    private final Handle handle;
    private final Veil veil;

    MeasurementStore(Handle handle, Veil veil) {
        this.handle = handle;
        this.veil = veil;
    }

    /**
     * All measurements of a case by frame, then in the order in which they were made.
     *
     * @throws org.sideport.model.InputException if there is no such case
     */
    public List<Measurement> of(String caseCode) {
        List<Measurement> all = load("where case_id = :key order by at_us, rowid", veil.caseId(caseCode));
        return veil.through(caseCode)
                .map(a -> all.stream()
                        .filter(m -> m.author().equals(a.assessor()))
                        .toList())
                .orElse(all);
    }

    public Optional<Measurement> find(String id) {
        return load("where id = :key", id).stream().findFirst();
    }

    public void add(String caseCode, Measurement added) {
        veil.requireAssessor(caseCode, added.author());
        WhiteToWhite width = added.scale();
        handle.createUpdate("insert into still_measurement (id, case_id, author, at_us, display_width, display_height,"
                        + " shape, points, width_mm, width_sd_mm, width_own, method, warnings, measured_at) values"
                        + " (:id, :caseId, :author, :at, :width, :height, :shape, :points, :mm, :sd, :own, :method,"
                        + " :warnings, :now)")
                .bind("id", added.id())
                .bind("caseId", veil.caseId(caseCode))
                .bind("author", added.author())
                .bind("at", added.frame().micros())
                .bind("width", added.displayWidth())
                .bind("height", added.displayHeight())
                .bind("shape", added.shape().id())
                .bind("points", PointText.write(added.points()))
                .bind("mm", width == null ? null : (Double) width.mm())
                .bind("sd", width == null ? null : (Double) width.sdMm())
                .bind("own", width == null ? null : (Boolean) width.own())
                .bind("method", added.method())
                .bind("warnings", String.join("\n", added.warnings()))
                .bind("now", Instant.now().toString())
                .execute();
        for (int i = 0; i < added.values().size(); i++) {
            MeasuredValue value = added.values().get(i);
            handle.execute(
                    "insert into measured_value (measurement_id, ordinal, name, unit, value, se, lower, upper)"
                            + " values (?, ?, ?, ?, ?, ?, ?, ?)",
                    added.id(),
                    i,
                    value.name(),
                    value.unit(),
                    value.value(),
                    value.se(),
                    value.lower(),
                    value.upper());
        }
    }

    public void delete(Measurement gone) {
        handle.execute("delete from still_measurement where id = ?", gone.id());
    }

    private List<Measurement> load(String where, Object key) {
        return handle.createQuery(COLUMNS + where)
                .bind("key", key)
                .map((row, context) -> new Measurement(
                        row.getString("id"),
                        row.getString("author"),
                        MediaTime.ofMicros(row.getLong("at_us")),
                        row.getDouble("display_width"),
                        row.getDouble("display_height"),
                        MeasuredShape.parse(row.getString("shape")),
                        PointText.read(row.getString("points")),
                        row.getObject("width_mm") == null
                                ? null
                                : new WhiteToWhite(
                                        row.getDouble("width_mm"),
                                        row.getDouble("width_sd_mm"),
                                        row.getBoolean("width_own")),
                        values(row.getString("id")),
                        row.getString("method"),
                        row.getString("warnings").lines().toList()))
                .list();
    }

    private List<MeasuredValue> values(String id) {
        return handle.createQuery("select name, unit, value, se, lower, upper from measured_value"
                        + " where measurement_id = :id order by ordinal")
                .bind("id", id)
                .map((row, context) -> new MeasuredValue(
                        row.getString("name"),
                        row.getString("unit"),
                        row.getDouble("value"),
                        number(row.getObject("se")),
                        number(row.getObject("lower")),
                        number(row.getObject("upper"))))
                .list();
    }

    private static @Nullable Double number(@Nullable Object stored) {
        return stored == null ? null : (Double) ((Number) stored).doubleValue();
    }
}
