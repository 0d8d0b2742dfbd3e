package org.sideport.app.voice;

import org.sideport.app.Background;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.workflow.VoiceKeeping;

/** What is done for spoken comments when a workspace is opened. */
public record VoiceCare(VoiceKeeping keeping, Background work, Notices notices, Texts texts) {

    /** Saves what a crash left of them, and removes the sounds that no comment uses any more. */
    public void run() {
        work.run(
                progress -> {
                    int saved = keeping.rescue().size();
                    keeping.tidy();
                    return saved;
                },
                saved -> {
                    if (saved > 0) {
                        notices.hint(texts.get("spoken.rescued", saved));
                    }
                },
                notices::failed);
    }
}
