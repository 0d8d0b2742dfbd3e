package org.sideport.store;

import java.util.HashSet;
import java.util.Set;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Voice;

/** The voices of comments; a row goes with its comment, the sound file stays until it is tidied away. */
final class VoiceRows {

    private VoiceRows() {}

    static @Nullable Voice find(Handle handle, String comment) {
        return handle.createQuery("select sha256, length_us, seen, captions from spoken_comment where comment_id = :id")
                .bind("id", comment)
                .map((row, context) -> new Voice(
                        row.getString("sha256"),
                        row.getLong("length_us"),
                        VoiceJson.readSeen(row.getString("seen")),
                        VoiceJson.readCaptions(row.getString("captions"))))
                .findOne()
                .orElse(null);
    }

    /** @param voice {@code null} for none any more */
    static void save(Handle handle, String comment, @Nullable Voice voice) {
        handle.execute("delete from spoken_comment where comment_id = ?", comment);
        if (voice != null) {
            handle.execute(
                    "insert into spoken_comment (comment_id, sha256, length_us, seen, captions)"
                            + " values (?, ?, ?, ?, ?)",
                    comment,
                    voice.sha256(),
                    voice.lengthUs(),
                    VoiceJson.write(voice.seen()),
                    VoiceJson.write(voice.captions()));
        }
    }

    static Set<String> digests(Handle handle) {
        return new HashSet<>(handle.createQuery("select distinct sha256 from spoken_comment")
                .mapTo(String.class)
                .list());
    }
}
