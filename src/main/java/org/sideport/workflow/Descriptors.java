package org.sideport.workflow;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;

/** Checks case descriptors against the procedure. */
final class Descriptors {

    private Descriptors() {}

    /**
     * @return the descriptors that have a value
     * @throws InputException if one is not known to the procedure or has a value that is not allowed
     */
    static Map<String, String> check(Procedure procedure, Map<String, String> descriptors) {
        Map<String, String> checked = new LinkedHashMap<>();
        descriptors.forEach((name, value) -> {
            Procedure.Descriptor known = procedure.descriptors().stream()
                    .filter(d -> d.id().equals(name))
                    .findFirst()
                    .orElseThrow(() -> new InputException(
                            "unknown descriptor \"" + name + "\"",
                            null,
                            "known are: "
                                    + String.join(
                                            ", ",
                                            procedure.descriptors().stream()
                                                    .map(Procedure.Descriptor::id)
                                                    .toList())));
            List<String> allowed = known.values();
            if (!value.isBlank() && !allowed.isEmpty() && !allowed.contains(value.strip())) {
                throw new InputException(
                        "\"" + value + "\" is no value of " + name, null, "allowed are: " + String.join(", ", allowed));
            }
            if (!value.isBlank()) {
                checked.put(name, value.strip());
            }
        });
        return checked;
    }
}
