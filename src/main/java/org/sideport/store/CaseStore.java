package org.sideport.store;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;

/** Cases with their descriptors and recordings. */
public final class CaseStore {

    private final Handle handle;
    private final SegmentRows segments;

    CaseStore(Handle handle, Path dir) {
        this.handle = handle;
        this.segments = new SegmentRows(handle, dir);
    }

    /**
     * @throws InputException if the code is taken
     */
    public void add(SurgicalCase added) {
        if (exists(added.code())) {
            throw new InputException(
                    "there is a case " + added.code() + " already", null, "give this one a code of its own");
        }
        long id = handle.createUpdate("insert into surgical_case (code, trainee, operated_on, procedure_id)"
                        + " values (:code, :trainee, :date, :procedure)")
                .bind("code", added.code())
                .bind("trainee", added.trainee())
                .bind("date", added.date().toString())
                .bind("procedure", added.procedure())
                .executeAndReturnGeneratedKeys("id")
                .mapTo(Long.class)
                .one();
        added.descriptors()
                .forEach((name, value) -> handle.execute(
                        "insert into case_descriptor (case_id, name, value) values (?, ?, ?)", id, name, value));
        Recording recording = added.recording();
        if (recording != null) {
            segments.insert(id, recording.segments());
        }
    }

    public boolean exists(String code) {
        return handle.createQuery("select count(*) from surgical_case where code = :code")
                        .bind("code", code)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }

    /**
     * @throws InputException if there is no such case
     */
    public SurgicalCase get(String code) {
        return find(code)
                .orElseThrow(() -> new InputException(
                        "there is no case " + code, null, "list the cases with: sideport case list"));
    }

    public Optional<SurgicalCase> find(String code) {
        return load("where code = :code", code).stream().findFirst();
    }

    /** All cases by date, then code. */
    public List<SurgicalCase> all() {
        return load("", null);
    }

    /** Codes of the cases that already use a file of this content. */
    public List<String> usingContent(String sha256) {
        return handle.createQuery("select distinct c.code from segment s join surgical_case c on c.id = s.case_id"
                        + " where s.sha256 = :sha order by c.code")
                .bind("sha", sha256)
                .mapTo(String.class)
                .list();
    }

    /** Records where the files of a case are now. */
    public void moveSegments(String code, List<Segment> found) {
        segments.updatePaths(CaseKey.of(handle, code), found);
    }

    private List<SurgicalCase> load(String where, @Nullable String code) {
        var query = handle.createQuery("select id, code, trainee, operated_on, procedure_id from surgical_case " + where
                + " order by operated_on, code");
        if (code != null) {
            query.bind("code", code);
        }
        Map<Long, SurgicalCase> bare = new LinkedHashMap<>();
        query.map((row, context) -> Map.entry(
                        row.getLong("id"),
                        new SurgicalCase(
                                row.getString("code"),
                                row.getString("trainee"),
                                LocalDate.parse(row.getString("operated_on")),
                                row.getString("procedure_id"),
                                Map.of(),
                                null)))
                .forEach(entry -> bare.put(entry.getKey(), entry.getValue()));
        Long only =
                code == null || bare.isEmpty() ? null : bare.keySet().iterator().next();
        Map<Long, Map<String, String>> descriptors = descriptors(only);
        Map<Long, List<Segment>> files = segments.load(only);
        List<SurgicalCase> cases = new ArrayList<>();
        bare.forEach((id, one) -> {
            List<Segment> own = files.getOrDefault(id, List.of());
            cases.add(new SurgicalCase(
                    one.code(),
                    one.trainee(),
                    one.date(),
                    one.procedure(),
                    descriptors.getOrDefault(id, Map.of()),
                    own.isEmpty() ? null : new Recording(own)));
        });
        return cases;
    }

    private Map<Long, Map<String, String>> descriptors(@Nullable Long only) {
        Map<Long, Map<String, String>> byCase = new LinkedHashMap<>();
        handle.createQuery("select case_id, name, value from case_descriptor"
                        + (only == null ? "" : " where case_id = " + only))
                .map((row, context) ->
                        new String[] {row.getString("case_id"), row.getString("name"), row.getString("value")})
                .forEach(row -> byCase.computeIfAbsent(Long.valueOf(row[0]), id -> new LinkedHashMap<>())
                        .put(row[1], row[2]));
        return byCase;
    }
}
