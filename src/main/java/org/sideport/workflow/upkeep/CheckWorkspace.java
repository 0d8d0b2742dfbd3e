package org.sideport.workflow.upkeep;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;
import org.sideport.model.AuditHead;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.RubricReader;
import org.sideport.store.AuditFault;
import org.sideport.store.StoreKeeping;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.workflow.VoiceKeeping;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Looks through a workspace: is it as it was written, and is all there that belongs to it? Changes nothing. */
public final class CheckWorkspace {

    private final Workspace workspace;

    public CheckWorkspace(Workspace workspace) {
        this.workspace = workspace;
    }

    /** What a finding is about. */
    public enum Kind {
        STORE,
        AUDIT,
        RATING,
        RUBRIC,
        VOICE,
        RECORDING,
        BACKUP;

        public String id() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * Something that was found.
     *
     * @param subject a case's code, the number of an audit line, a file
     * @param remedy what to do about it
     * @param isNote true if it may be so, but is said
     */
    public record Finding(Kind kind, String subject, String what, String remedy, boolean isNote) {}

    /**
     * What a check came to.
     *
     * @param head where the audit trail ends: worth noting elsewhere, to be compared another time
     * @param signed number of signed and superseded ratings
     */
    public record Result(List<Finding> findings, AuditHead head, int cases, int signed) {

        public Result {
            findings = List.copyOf(findings);
        }

        /** True if nothing was found but what may be so. */
        public boolean isWhole() {
            return findings.stream().allMatch(Finding::isNote);
        }
    }

    /**
     * @param recordings true to read all recordings' files and compare them with their digests
     * @param noted an end of the audit trail that was noted elsewhere, or {@code null}
     * @throws java.util.concurrent.CancellationException if it was cancelled
     */
    public Result run(boolean recordings, @Nullable AuditHead noted, Progress progress) {
        Access.require(workspace, Permission.KEEP_STORE);
        List<Finding> findings = new ArrayList<>(findings(workspace, recordings, progress));
        StoreKeeping keeping = workspace.keeping();
        if (noted != null && !keeping.reaches(noted)) {
            findings.add(new Finding(
                    Kind.AUDIT,
                    "line " + noted.count(),
                    "the audit trail does not hold the line that was noted",
                    "find out who had access to the store since; the last backup that holds it is the one to trust",
                    false));
        }
        record Counts(int cases, int signed) {}
        Counts counts = workspace.read(stores -> new Counts(
                (int) stores.summaries().counts().cases(),
                stores.seals().digests().size()));
        return new Result(findings, keeping.head(), counts.cases(), counts.signed());
    }

    /**
     * Takes the audit trail as it stands from now on, after somebody has looked into what was found; that is noted in it.
     */
    public void acceptTrail() {
        Access.require(workspace, Permission.KEEP_STORE);
        workspace.keeping().acceptTrail();
    }

    static List<Finding> findings(Workspace workspace, boolean recordings, Progress progress) {
        List<Finding> findings = new ArrayList<>();
        progress.report(0, "Reading the store");
        store(workspace.keeping(), findings);
        progress.check();
        progress.report(0.1, "Following the audit trail");
        readable(findings, () -> audit(workspace.keeping(), findings));
        progress.check();
        progress.report(0.2, "Comparing signed ratings");
        readable(findings, () -> ratings(workspace, findings));
        progress.check();
        readable(findings, () -> voices(workspace, findings));
        readable(findings, () -> files(workspace, recordings, findings, progress.part(0.3, 0.9)));
        backups(workspace.keeping(), findings, progress.part(0.9, 1));
        progress.report(1, "");
        return findings;
    }

    /** Rows that nobody could have written through the program may keep it from reading them: that is a finding too. */
    private static void readable(List<Finding> findings, Runnable part) {
        try {
            part.run();
        } catch (CancellationException e) {
            throw e;
        } catch (RuntimeException e) {
            findings.add(new Finding(
                    Kind.STORE,
                    Workspace.STORE_FILE,
                    "what is stored cannot be read: "
                            + String.valueOf(e.getMessage()).lines().findFirst().orElse(""),
                    "go back to the last backup with: sideport workspace restore",
                    false));
        }
    }

    private static void store(StoreKeeping keeping, List<Finding> findings) {
        for (String fault : keeping.faults()) {
            findings.add(new Finding(
                    Kind.STORE,
                    Workspace.STORE_FILE,
                    fault,
                    keeping.backups().stream()
                            .findFirst()
                            .map(b -> "go back to the last backup: sideport workspace restore \"" + b.file()
                                    + "\" NEW-FOLDER")
                            .orElse("put back a copy of the store: there is no backup in its folder"),
                    false));
        }
    }

    private static void audit(StoreKeeping keeping, List<Finding> findings) {
        for (AuditFault fault : keeping.auditFaults()) {
            findings.add(new Finding(
                    Kind.AUDIT,
                    "line " + fault.line(),
                    fault.what(),
                    "compare with the backups and find out who had access to the store; then: sideport workspace check"
                            + " --accept",
                    false));
        }
    }

    private static void ratings(Workspace workspace, List<Finding> findings) {
        VerifyRatings.Signed read = workspace.read(VerifyRatings::all);
        read.lost()
                .forEach(line -> findings.add(new Finding(
                        Kind.RATING,
                        line.subject(),
                        "what was signed by line " + line.id() + " of the audit trail is no longer there",
                        "look at the backups for what was signed",
                        false)));
        for (VerifyRatings.Verified one : read.verified()) {
            String who = one.assessor() + (one.self() ? " (self)" : "") + ", rating " + one.id();
            one.findings()
                    .forEach(f -> findings.add(new Finding(
                            Kind.RATING,
                            one.caseCode(),
                            f + " (" + who + ")",
                            "do not rely on it: look at the backups for what was signed",
                            false)));
            one.notes()
                    .forEach(n -> findings.add(new Finding(
                            Kind.RATING, one.caseCode(), n + " (" + who + ")", "nothing needs to be done", true)));
        }
        Set<String> seen = new HashSet<>();
        for (StoredRating one : read.ratings()) {
            String rubric = one.rating().rubric() + " " + one.rating().rubricVersion();
            if (seen.add(rubric)) {
                String fault = rubricFault(one.rubricJson(), rubric);
                if (fault != null) {
                    findings.add(new Finding(
                            Kind.RUBRIC, rubric, fault, "put back a backup: its ratings cannot be scored", false));
                }
            }
        }
    }

    private static @Nullable String rubricFault(String json, String name) {
        try {
            RubricReader.read(json, "rubric " + name);
            return null;
        } catch (InputException e) {
            return e.getMessage();
        }
    }

    private static void voices(Workspace workspace, List<Finding> findings) {
        VoiceKeeping.Check check = new VoiceKeeping(workspace).check();
        check.missing()
                .forEach(voice -> findings.add(new Finding(
                        Kind.VOICE,
                        voice,
                        "the sound of a spoken comment is missing from the folder voice",
                        "put it back out of a backup",
                        false)));
        check.unused()
                .forEach(file -> findings.add(new Finding(
                        Kind.VOICE,
                        String.valueOf(file.getFileName()),
                        "no comment uses this sound",
                        "the app removes it by itself when it is opened",
                        true)));
    }

    private static void files(Workspace workspace, boolean hashed, List<Finding> findings, Progress progress) {
        List<SurgicalCase> cases = workspace.read(stores -> stores.cases().all());
        for (int i = 0; i < cases.size(); i++) {
            progress.check();
            progress.report(
                    (double) i / cases.size(),
                    "Looking at the recordings of " + cases.get(i).code());
            Recording recording = cases.get(i).recording();
            if (recording == null) {
                continue;
            }
            Progress part = progress.part((double) i / cases.size(), (i + 1.0) / cases.size());
            for (Segment segment : recording.segments()) {
                String problem = hashed ? VerifyRatings.problem(segment, part) : missing(segment.file());
                if (problem != null) {
                    findings.add(new Finding(
                            Kind.RECORDING,
                            cases.get(i).code(),
                            problem,
                            "open the case: the program looks for it nearby; else put the file back",
                            false));
                }
            }
        }
    }

    private static @Nullable String missing(Path file) {
        return Files.isRegularFile(file) ? null : "the recording file " + file + " is not where it was";
    }

    private static void backups(StoreKeeping keeping, List<Finding> findings, Progress progress) {
        keeping.damagedBackups(progress)
                .forEach(backup -> findings.add(new Finding(
                        Kind.BACKUP,
                        String.valueOf(backup.file().getFileName()),
                        "this backup is not as it was written",
                        "delete it, and make a new one",
                        false)));
    }
}
