package org.sideport.rubric;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;

/** The files under {@code rubrics/} as they are packed with the program. */
public final class ShippedRubrics {

    /** Names of the packed procedure files, the usual one first. */
    public static final List<String> PROCEDURES = List.of("phaco-procedure.json", "msics-procedure.json");

    /** Names of the packed rubric files, the usual one first. */
    public static final List<String> RUBRICS = List.of(
            "phaco-competency.json",
            "phaco-global.json",
            "capsulorhexis.json",
            "phaco-errors.json",
            "teaching-case.json",
            "msics-competency.json");

    private ShippedRubrics() {}

    /** The vocabulary of phacoemulsification. */
    public static Procedure phacoProcedure() {
        return ProcedureReader.read(text("phaco-procedure.json"), "phaco-procedure.json");
    }

    /** The example rubric for phacoemulsification, in words of its own; not validated. */
    public static Rubric phacoCompetency() {
        return RubricReader.read(text("phaco-competency.json"), "phaco-competency.json", phacoProcedure());
    }

    /**
     * The text of a packed file, so that it can be copied out and adapted.
     *
     * @param file its name, such as {@code phaco-competency.json} or {@code rubric.schema.json}
     * @throws InputException if there is none of that name
     */
    public static String text(String file) {
        try (InputStream in = ShippedRubrics.class.getResourceAsStream("/org/sideport/rubrics/" + file)) {
            if (in == null) {
                throw new InputException("no file of that name is packed with the program", file, "check the name");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
