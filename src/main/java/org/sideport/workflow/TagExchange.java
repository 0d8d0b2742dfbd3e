package org.sideport.workflow;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.timing.Boundary;
import org.sideport.timing.TagCsvReader;
import org.sideport.timing.TagCsvWriter;
import org.sideport.timing.TagTable;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Brings taggings in from CSV files and gives them out again. */
public final class TagExchange {

    private final Workspace workspace;

    public TagExchange(Workspace workspace) {
        this.workspace = workspace;
    }

    /** What one entry of a file became. */
    public record Imported(String caseCode, String annotator, TagTable.Kind kind, int count) {}

    /**
     * Takes in a phase or event file: all of it, or nothing.
     *
     * @param annotator whose tagging it shall be; {@code null} to go by the file's own column
     * @param replace true to put it in the place of phases (or events) that the annotator has already
     * @throws InputException at the first fault, naming file, line and remedy
     */
    public List<Imported> importCsv(Path file, @Nullable String annotator, boolean replace) {
        // Cases may be of different procedures: names are checked against each case's own.
        Access.require(workspace, Permission.TAG);
        TagTable raw = new TagCsvReader(null).read(file);
        Vocabularies vocabularies = new Vocabularies(workspace);
        return workspace.write(stores -> {
            List<Imported> done = new ArrayList<>();
            for (TagTable.Entry entry : raw.entries()) {
                String place = file + ", line " + entry.line();
                SurgicalCase one = stores.cases()
                        .find(entry.caseCode())
                        .orElseThrow(() -> new InputException(
                                "there is no case " + entry.caseCode(), place, "add it first: sideport case add"));
                String who = whose(entry, annotator, place);
                requireMay(stores, one.code(), who, place);
                boolean twice = done.stream()
                        .anyMatch(d ->
                                d.caseCode().equals(one.code()) && d.annotator().equals(who));
                if (twice) {
                    throw new InputException(
                            "the file holds several annotators' tags of case " + one.code(),
                            place,
                            "leave out --annotator, or import each annotator's rows by themselves");
                }
                Procedure procedure = vocabularies.procedure(one.procedure());
                Tagging checked = check(file, entry, procedure, one);
                store(stores, one, who, checked, raw.kind(), replace, place);
                stores.audit()
                        .add("tags.import", one.code(), "", raw.kind().name().toLowerCase(Locale.ROOT) + " of " + who);
                done.add(new Imported(
                        one.code(),
                        who,
                        raw.kind(),
                        raw.kind() == TagTable.Kind.PHASES
                                ? checked.spans().size()
                                : checked.events().size()));
            }
            return done;
        });
    }

    private static void requireMay(Stores stores, String caseCode, String who, String place) {
        try {
            Access.requireOwn(stores.caller(), who);
            Access.require(stores, Permission.TAG, caseCode);
        } catch (InputException e) {
            throw e.at(place);
        }
    }

    private static String whose(TagTable.Entry entry, @Nullable String annotator, String place) {
        String who = annotator != null ? annotator : entry.annotator();
        if (who == null) {
            throw new InputException(
                    "the row does not say who tagged", place, "fill the column annotator, or use --annotator");
        }
        try {
            return Codes.require("an annotator", who);
        } catch (InputException e) {
            throw e.at(place);
        }
    }

    private static Tagging check(Path file, TagTable.Entry entry, Procedure procedure, SurgicalCase one) {
        Recording recording = one.recording();
        MediaTime end = recording == null ? null : recording.duration();
        List<PhaseSpan> spans = new ArrayList<>();
        for (int i = 0; i < entry.tagging().spans().size(); i++) {
            PhaseSpan span = entry.tagging().spans().get(i);
            String place = file + ", line " + entry.lines().get(i);
            Procedure.Term term = procedure
                    .find(span.phase())
                    .orElseThrow(() -> new InputException(
                            "unknown phase \"" + span.phase() + "\"",
                            place,
                            "known in the procedure " + procedure.id() + " are: " + names(procedure)));
            MediaTime spanEnd = span.end();
            requireWithin(span.start(), end, false, place);
            if (spanEnd != null) {
                requireWithin(spanEnd, end, true, place);
            }
            // Idle time is what lies between spans; a row for it says nothing more.
            if (!term.phase().idle()) {
                spans.add(span.withPhase(term.id()));
            }
        }
        List<PointEvent> events = new ArrayList<>();
        for (int i = 0; i < entry.tagging().events().size(); i++) {
            PointEvent event = entry.tagging().events().get(i);
            String place = file + ", line " + entry.lines().get(i);
            Procedure.EventKind kind = procedure
                    .findEvent(event.kind())
                    .orElseThrow(() -> new InputException(
                            "unknown event \"" + event.kind() + "\"",
                            place,
                            "known in the procedure " + procedure.id() + " are: "
                                    + String.join(
                                            ", ",
                                            procedure.events().stream()
                                                    .map(Procedure.EventKind::id)
                                                    .toList())));
            requireWithin(event.at(), end, false, place);
            events.add(new PointEvent(kind.id(), event.at(), event.severity(), event.note()));
        }
        return new Tagging(entry.tagging().style(), spans, events);
    }

    private static String names(Procedure procedure) {
        return String.join(
                ", ", procedure.terms().stream().map(Procedure.Term::id).toList());
    }

    private static void requireWithin(MediaTime time, @Nullable MediaTime end, boolean endAllowed, String place) {
        if (end != null && (endAllowed ? time.isAfter(end) : !time.isBefore(end))) {
            throw new InputException(
                    time.toSecondsText() + " s lies beyond the end of the recording at " + end.toSecondsText() + " s",
                    place,
                    "correct the time, or check that it is the right case");
        }
    }

    private static void store(
            Stores stores,
            SurgicalCase one,
            String who,
            Tagging checked,
            TagTable.Kind kind,
            boolean replace,
            String place) {
        Tagging known = stores.taggings().find(one.code(), who).orElse(Tagging.EMPTY);
        boolean phases = kind == TagTable.Kind.PHASES;
        if (!replace && !(phases ? known.spans().isEmpty() : known.events().isEmpty())) {
            throw new InputException(
                    who + " has " + (phases ? "phases" : "events") + " of case " + one.code() + " already",
                    place,
                    "use --replace to put these in their place");
        }
        Tagging merged = phases
                ? new Tagging(checked.style(), checked.spans(), known.events())
                : known.withEvents(checked.events());
        Boundary.Kind untouched = phases ? Boundary.Kind.EVENT : Boundary.Kind.PHASE;
        Set<Boundary> confirmed = stores.taggings().confirmed(one.code(), who).stream()
                .filter(boundary -> boundary.kind() == untouched)
                .collect(Collectors.toSet());
        stores.taggings().save(one.code(), who, merged, confirmed, Set.of());
    }

    /**
     * One annotator's tagging of a case.
     *
     * @param confirmed its boundaries that have been confirmed on their frame
     */
    public record Exported(SurgicalCase surgicalCase, String annotator, Tagging tagging, Set<Boundary> confirmed) {
        public Exported {
            confirmed = Set.copyOf(confirmed);
        }

        public boolean isConfirmed(Boundary.Kind kind, MediaTime at) {
            return confirmed.contains(new Boundary(kind, at));
        }
    }

    /**
     * @param annotator {@code null} where the case has only one
     * @throws InputException if there is no such tagging, or several and none is named
     */
    public Exported find(String caseCode, @Nullable String annotator) {
        return workspace.read(stores -> {
            Access.require(stores, Permission.SEE_CASE, caseCode);
            SurgicalCase one = stores.cases().get(caseCode);
            List<String> annotators = stores.taggings().annotators(caseCode);
            if (annotator == null && annotators.size() > 1) {
                throw new InputException(
                        "several have tagged case " + one.code(),
                        null,
                        "name one with --annotator: " + String.join(", ", annotators));
            }
            if (annotators.isEmpty() || (annotator != null && !annotators.contains(annotator))) {
                throw new InputException(
                        (annotator == null ? "nobody" : annotator) + " has " + (annotator == null ? "" : "not ")
                                + "tagged case " + one.code(),
                        null,
                        annotators.isEmpty() ? "tag it first" : "tagged by: " + String.join(", ", annotators));
            }
            String who = annotator == null ? annotators.get(0) : annotator;
            return new Exported(
                    one,
                    who,
                    stores.taggings().find(caseCode, who).orElse(Tagging.EMPTY),
                    stores.taggings().confirmed(caseCode, who));
        });
    }

    /** Writes the phases, or the events, as CSV. */
    public void exportCsv(Exported exported, TagTable.Kind kind, Appendable out) throws IOException {
        Access.require(
                workspace, Permission.EXPORT_CASE, exported.surgicalCase().code());
        if (kind == TagTable.Kind.PHASES) {
            TagCsvWriter.phases(exported.surgicalCase().code(), exported.annotator(), exported.tagging(), out);
        } else {
            TagCsvWriter.events(exported.surgicalCase().code(), exported.annotator(), exported.tagging(), out);
        }
    }
}
