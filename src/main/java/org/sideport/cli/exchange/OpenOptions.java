package org.sideport.cli.exchange;

import org.jspecify.annotations.Nullable;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import picocli.CommandLine.Option;

/** Options of exports in published formats. */
final class OpenOptions {

    @Option(names = "--annotator", paramLabel = "A", description = "Whose tags; needed where several tagged the case.")
    @Nullable
    String annotator;

    @Option(
            names = "--purpose",
            paramLabel = "P",
            defaultValue = "teaching",
            description = "What it is for: teaching, assessment or research; consent is asked for it. Default:"
                    + " ${DEFAULT-VALUE} (bundles and xAPI: assessment).")
    String purpose = "teaching";

    @Option(names = "--frames", description = "otio: times in whole frames of the recording instead of microseconds.")
    boolean frames;

    @Option(names = "--no-sound", description = "chapters: leave the sound out; people speak in it.")
    boolean noSound;

    @Option(
            names = "--home-page",
            paramLabel = "IRI",
            description = "xapi: your unit's own address, under which its codes are known.")
    @Nullable
    String homePage;

    @Option(
            names = "--endpoint",
            paramLabel = "URL",
            description = "xapi: send to this store instead of writing a file. Name and password come from"
                    + " SIDEPORT_XAPI_LOGIN (NAME:PASSWORD). Nothing is ever sent without this option.")
    @Nullable
    String endpoint;

    ConsentPurpose purpose() {
        var parsed = ConsentPurpose.parseAll(purpose);
        if (parsed.size() != 1) {
            throw new InputException(
                    "\"" + purpose + "\" is not one purpose", null, "write teaching, assessment or research");
        }
        return parsed.iterator().next();
    }
}
