package org.sideport.workflow.exchange;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FileDigest;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.report.bundle.BundleReader;
import org.sideport.report.bundle.CaseContent;
import org.sideport.store.Workspace;
import org.sideport.workflow.Codes;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/**
 * Takes a case bundle in: look first, then take. Twice is as good as once; where the bundle differs from what is here, each
 * difference is told, and nothing signed is ever replaced. All of it is one change of the store.
 */
public final class ImportBundle {

    private static final String FOLDER = "recordings";
    private static final String INCOMING = ".incoming-";

    private final Workspace workspace;

    public ImportBundle(Workspace workspace) {
        this.workspace = workspace;
    }

    /** True if the file needs a passphrase. */
    public static boolean needsPassphrase(Path file) {
        return BundleReader.isEncrypted(file);
    }

    /**
     * Reads the whole bundle, holds every byte against its digest and compares it with the store. Nothing is changed.
     *
     * @param passphrase {@code null} if there is none
     * @throws InputException if it is no bundle, damaged or hostile, or cannot be a case here
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public ImportPlan look(Path file, char @Nullable [] passphrase, ImportChoice choice, Progress progress) {
        Access.require(workspace, Permission.IMPORT_BUNDLE);
        try (BundleReader bundle = BundleReader.open(file, passphrase, workspace.dir(), progress.part(0, 0.5))) {
            bundle.verify(progress.part(0.5, 1));
            return workspace.read(stores -> new BundleMerge(workspace, stores, bundle, choice, null).run());
        }
    }

    /**
     * Takes the bundle in.
     *
     * @return what was done
     * @throws InputException as {@link #look}, or if a question is open; nothing is changed then
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is changed then
     */
    public ImportPlan take(Path file, char @Nullable [] passphrase, ImportChoice choice, Progress progress) {
        Access.require(workspace, Permission.IMPORT_BUNDLE);
        Access.requireOwn(workspace.caller(), Codes.require("the person who takes it in", choice.by()));
        try (BundleReader bundle = BundleReader.open(file, passphrase, workspace.dir(), progress.part(0, 0.3))) {
            bundle.verify(progress.part(0.3, 0.5));
            String sha256 = FileDigest.sha256(file, progress.part(0.5, 0.6));
            ImportPlan plan = workspace.read(stores -> new BundleMerge(workspace, stores, bundle, choice, null).run());
            if (!plan.questions().isEmpty()) {
                throw new InputException(plan.questions().get(0).text(), file.toString(), "answer this first");
            }
            return take(bundle, plan, choice, sha256, progress.part(0.6, 1));
        }
    }

    private ImportPlan take(
            BundleReader bundle, ImportPlan plan, ImportChoice choice, String sha256, Progress progress) {
        keepVoices(bundle);
        Path home = workspace.dir().resolve(FOLDER);
        Path incoming = home.resolve(INCOMING + UUID.randomUUID());
        Path target = home.resolve(plan.caseCode());
        List<Path> moved = new ArrayList<>();
        boolean done = false;
        try {
            List<Path> media = List.of();
            if (bundle.hasMedia() && needsMedia(bundle, plan)) {
                sweep(home);
                Files.createDirectories(incoming);
                media = bundle.writeMedia(incoming, progress);
            }
            List<Path> arrived = media;
            progress.check();
            ImportPlan taken = workspace.write(stores -> {
                ImportPlan now = new BundleMerge(workspace, stores, bundle, choice, sha256).run();
                moveIn(arrived, target, moved);
                stores.audit().add("bundle.import", now.caseCode(), "", sha256);
                return now;
            });
            done = true;
            return taken;
        } catch (IOException e) {
            throw new InputException(
                    "the recording cannot be written: " + e.getMessage(),
                    home.toString(),
                    "check the disk and its room; nothing was changed",
                    e);
        } finally {
            clear(incoming);
            if (!done) {
                moved.forEach(ImportBundle::forget);
            }
        }
    }

    /** Content-addressed: a sound that is here already is the same one. */
    private void keepVoices(BundleReader bundle) {
        for (CaseContent.CommentPart comment : bundle.content().comments()) {
            CaseContent.VoicePart voice = comment.voice();
            if (voice != null && !Files.isRegularFile(workspace.voices().file(voice.sha256()))) {
                Path part = workspace.voices().begin("bundle-" + UUID.randomUUID());
                try {
                    bundle.writeVoice(voice.sha256(), part);
                    workspace.voices().keep(part);
                } finally {
                    forget(part);
                }
            }
        }
    }

    private boolean needsMedia(BundleReader bundle, ImportPlan plan) {
        if (plan.newCase()) {
            return true;
        }
        var here = workspace.read(stores -> stores.cases().get(plan.caseCode())).recording();
        return here == null
                || here.segments().stream().anyMatch(s -> !Files.isRegularFile(s.file()))
                || here.segments().size() != bundle.content().files().size();
    }

    private static void moveIn(List<Path> arrived, Path target, List<Path> moved) {
        try {
            for (Path file : arrived) {
                Files.createDirectories(target);
                Path to = target.resolve(String.valueOf(file.getFileName()));
                if (Files.exists(to) && !isSame(file, to)) {
                    throw new InputException(
                            "another file is in the way of the recording", to.toString(), "move it elsewhere");
                }
                if (!Files.exists(to)) {
                    Files.move(file, to);
                    moved.add(to);
                }
            }
        } catch (IOException e) {
            throw new InputException(
                    "the recording cannot be put into its folder: " + e.getMessage(),
                    target.toString(),
                    "check the rights of the workspace folder; nothing was changed",
                    e);
        }
    }

    private static boolean isSame(Path one, Path other) throws IOException {
        return Files.mismatch(one, other) < 0;
    }

    /** What an import left that was killed. */
    private static void sweep(Path home) throws IOException {
        if (!Files.isDirectory(home)) {
            return;
        }
        try (Stream<Path> folders = Files.list(home)) {
            folders.filter(f -> String.valueOf(f.getFileName()).startsWith(INCOMING))
                    .toList()
                    .forEach(ImportBundle::clear);
        }
    }

    private static void clear(Path folder) {
        if (!Files.isDirectory(folder)) {
            return;
        }
        try (Stream<Path> files = Files.list(folder)) {
            files.toList().forEach(ImportBundle::forget);
        } catch (IOException e) {
            // swept at the next import
        }
        forget(folder);
    }

    private static void forget(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            org.slf4j.LoggerFactory.getLogger(ImportBundle.class).warn("left behind: {}", file, e);
        }
    }
}
