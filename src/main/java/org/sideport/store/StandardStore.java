package org.sideport.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Standard;
import org.sideport.model.StandardMethod;

/** Agreed standards. None is ever changed or deleted: the database itself refuses. */
public final class StandardStore {

    private final Handle handle;

    StandardStore(Handle handle) {
        this.handle = handle;
    }

    /** All by rubric, version and number. */
    public List<Standard> all() {
        return handle.createQuery("select * from standard order by rubric, rubric_version, number")
                .map((row, context) -> standard(row))
                .list();
    }

    /** The one in force for a version of a rubric. */
    public Optional<Standard> inForce(String rubric, String version) {
        return handle.createQuery("select * from standard where rubric = :rubric and rubric_version = :version"
                        + " and superseded_by is null")
                .bind("rubric", rubric)
                .bind("version", version)
                .map((row, context) -> standard(row))
                .findFirst();
    }

    /** Keeps a standard; the one in force before is superseded by it. */
    public void add(Standard standard) {
        Optional<Standard> before = inForce(standard.rubric(), standard.rubricVersion());
        handle.createUpdate("insert into standard (id, rubric, rubric_version, number, method, share, standard_error,"
                        + " lower_limit, upper_limit, limits_level, n, agreed_on, agreed_by, basis, warnings, data_digest, note,"
                        + " set_by, set_at, superseded_by) values (:id, :rubric, :version, :number, :method, :share, :se, :lower,"
                        + " :upper, :level, :n, :on, :by, :basis, :warnings, :digest, :note, :setBy, :setAt, null)")
                .bind("id", standard.id())
                .bind("rubric", standard.rubric())
                .bind("version", standard.rubricVersion())
                .bind("number", standard.number())
                .bind("method", standard.method().id())
                .bind("share", standard.share())
                .bind("se", standard.standardError())
                .bind("lower", standard.lower())
                .bind("upper", standard.upper())
                .bind("level", standard.level())
                .bind("n", standard.n())
                .bind("on", standard.agreedOn().toString())
                .bind("by", String.join(" ", standard.agreedBy()))
                .bind(
                        "basis",
                        standard.basis().entrySet().stream()
                                .map(e -> e.getKey() + "=" + e.getValue())
                                .collect(Collectors.joining("\n")))
                .bind("warnings", String.join("\n", standard.warnings()))
                .bind("digest", standard.dataDigest())
                .bind("note", standard.note())
                .bind("setBy", standard.setBy())
                .bind("setAt", standard.setAt().toString())
                .execute();
        before.ifPresent(
                old -> handle.execute("update standard set superseded_by = ? where id = ?", standard.id(), old.id()));
    }

    private static Standard standard(ResultSet row) throws SQLException {
        Map<String, String> basis = new LinkedHashMap<>();
        row.getString("basis").lines().forEach(line -> {
            int at = line.indexOf('=');
            basis.put(line.substring(0, at), line.substring(at + 1));
        });
        Number n = (Number) row.getObject("n");
        return new Standard(
                row.getString("id"),
                row.getString("rubric"),
                row.getString("rubric_version"),
                row.getInt("number"),
                StandardMethod.parse(row.getString("method")),
                row.getDouble("share"),
                number(row, "standard_error"),
                number(row, "lower_limit"),
                number(row, "upper_limit"),
                number(row, "limits_level"),
                n == null ? null : (Integer) n.intValue(),
                LocalDate.parse(row.getString("agreed_on")),
                List.of(row.getString("agreed_by").split(" ")),
                basis,
                row.getString("warnings").lines().toList(),
                row.getString("data_digest"),
                row.getString("note"),
                row.getString("set_by"),
                Instant.parse(row.getString("set_at")),
                row.getString("superseded_by"));
    }

    private static @Nullable Double number(ResultSet row, String column) throws SQLException {
        Number value = (Number) row.getObject(column);
        return value == null ? null : (Double) value.doubleValue();
    }
}
