package org.sideport.workflow;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaWarning;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Takes in many cases at once: everything is looked at and measured first, then all of it is stored as one change. */
public final class ImportCases {

    private final Workspace workspace;

    public ImportCases(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * A case that was looked at.
     *
     * @param surgicalCase as it will be stored; {@code null} if there is a fault
     * @param preview its files; {@code null} if it has none or there is a fault
     * @param fault why it cannot be taken in, or {@code null}
     */
    public record Looked(
            CaseDraft draft,
            @Nullable SurgicalCase surgicalCase,
            @Nullable RecordingPreview preview,
            @Nullable InputException fault) {

        /** What is odd about its files. */
        public List<MediaWarning> warnings() {
            return preview == null ? List.of() : preview.warnings();
        }

        public boolean good() {
            return fault == null;
        }
    }

    /**
     * Checks each draft by itself and against the store and the others; reads the whole of each file. Nothing is stored.
     *
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public List<Looked> look(List<CaseDraft> drafts, Progress progress) {
        Access.require(workspace, Permission.ADD_CASE);
        ImportRecording importer = new ImportRecording(workspace);
        Map<String, String> places = new HashMap<>();
        List<Looked> looked = new ArrayList<>();
        for (int i = 0; i < drafts.size(); i++) {
            progress.check();
            Progress part = progress.part((double) i / drafts.size(), (i + 1.0) / drafts.size());
            looked.add(look(drafts.get(i), importer, places, part));
        }
        return looked;
    }

    private Looked look(CaseDraft draft, ImportRecording importer, Map<String, String> places, Progress progress) {
        try {
            Access.requireNew(
                    workspace.caller(),
                    Permission.ADD_CASE,
                    draft.details().trainee().strip());
            requireFree(draft, places);
            // cheap checks before the files are read
            SurgicalCase bare = ImportRecording.checked(workspace, draft.details(), null);
            if (draft.files().isEmpty()) {
                return new Looked(draft, bare, null, null);
            }
            RecordingPreview preview = importer.preview(draft.files(), progress);
            ImportRecording.refuseCutShort(preview);
            return new Looked(draft, ImportRecording.checked(workspace, draft.details(), preview), preview, null);
        } catch (InputException e) {
            return new Looked(draft, null, null, e);
        }
    }

    private void requireFree(CaseDraft draft, Map<String, String> places) {
        String code = draft.details().code().strip();
        String before = places.putIfAbsent(code.toLowerCase(Locale.ROOT), draft.place());
        if (!code.isEmpty() && before != null) {
            throw new InputException(
                    "the code " + code + " stands in " + before + " already", null, "give each case a code of its own");
        }
        if (workspace.<Boolean>read(stores -> stores.cases().exists(code))) {
            throw new InputException(
                    "there is a case " + code + " already", null, "leave it out, or give this one a code of its own");
        }
    }

    /**
     * Stores the good ones as one change: all of them or, if that fails, none.
     *
     * @return the cases that were stored, by code
     * @throws InputException if one cannot be stored; nothing is then
     */
    public Map<String, SurgicalCase> store(List<Looked> looked) {
        Access.require(workspace, Permission.ADD_CASE);
        Map<String, SurgicalCase> stored = new LinkedHashMap<>();
        for (Looked one : looked) {
            SurgicalCase wanted = one.surgicalCase();
            if (wanted != null) {
                stored.put(wanted.code(), wanted);
            }
        }
        workspace.change(stores -> looked.forEach(one -> {
            SurgicalCase wanted = one.surgicalCase();
            if (wanted != null) {
                ImportRecording.store(stores, wanted, one.preview());
            }
        }));
        return stored;
    }
}
