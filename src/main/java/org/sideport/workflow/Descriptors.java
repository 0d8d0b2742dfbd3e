package org.sideport.workflow;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Descriptor;

/** Checks case descriptors and machine readings against the procedure, and writes each value in one way. */
public final class Descriptors {

    private static final int LONGEST_TEXT = 200;
    private static final String BETWEEN = "; ";

    private Descriptors() {}

    /**
     * @return the descriptors that have a value
     * @throws InputException if one is not known to the procedure or has a value that is not allowed
     */
    public static Map<String, String> check(Procedure procedure, Map<String, String> descriptors) {
        Map<String, String> checked = new LinkedHashMap<>();
        descriptors.forEach((name, value) -> {
            Descriptor known = procedure
                    .descriptor(name)
                    .orElseThrow(() -> new InputException(
                            "unknown descriptor \"" + name + "\"",
                            null,
                            "known are: "
                                    + String.join(
                                            ", ",
                                            procedure.descriptors().stream()
                                                    .map(Descriptor::id)
                                                    .toList())));
            String written = normal(known, value);
            if (!written.isEmpty()) {
                checked.put(name, written);
            }
        });
        return checked;
    }

    /** Why a value cannot be taken, in a sentence without an end mark; {@code null} if it can. */
    public static @Nullable String fault(Descriptor descriptor, String value) {
        try {
            normal(descriptor, value);
            return null;
        } catch (InputException e) {
            return e.getMessage();
        }
    }

    /**
     * The value as it is kept; empty for none.
     *
     * @throws InputException if it is not allowed
     */
    static String normal(Descriptor descriptor, String value) {
        String text = value.strip();
        if (text.isEmpty()) {
            return "";
        }
        return switch (descriptor.kind()) {
            case CHOICE -> one(descriptor, text).orElseThrow(() -> noValue(descriptor, text));
            case SEVERAL -> several(descriptor, text);
            case NUMBER -> number(descriptor, text);
            case TEXT -> words(descriptor, text);
            case COMPUTED ->
                throw new InputException(
                        descriptor.id() + " is worked out of " + String.join(" and ", descriptor.factors()),
                        null,
                        "give those two, and leave this one out");
        };
    }

    private static Optional<String> one(Descriptor descriptor, String text) {
        String wanted = text.toLowerCase(Locale.ROOT);
        return descriptor.values().stream()
                .filter(v -> v.toLowerCase(Locale.ROOT).equals(wanted))
                .findFirst();
    }

    private static InputException noValue(Descriptor descriptor, String text) {
        return new InputException(
                "\"" + text + "\" is no value of " + descriptor.id(),
                null,
                "allowed are: "
                        + String.join(
                                descriptor.kind() == Procedure.DescriptorKind.SEVERAL ? BETWEEN : ", ",
                                descriptor.values()));
    }

    /** In the order of the procedure file; "none …" stands alone. */
    private static String several(Descriptor descriptor, String text) {
        List<String> chosen = new ArrayList<>();
        for (String part : text.split(";")) {
            if (!part.isBlank()) {
                chosen.add(one(descriptor, part.strip()).orElseThrow(() -> noValue(descriptor, part.strip())));
            }
        }
        List<String> ordered =
                descriptor.values().stream().filter(chosen::contains).toList();
        if (ordered.size() > 1 && ordered.get(0).startsWith("none")) {
            throw new InputException(
                    "\"" + ordered.get(0) + "\" and others exclude each other in " + descriptor.id(),
                    null,
                    "keep one or the other");
        }
        return String.join(BETWEEN, ordered);
    }

    private static String number(Descriptor descriptor, String text) {
        BigDecimal number;
        try {
            number = new BigDecimal(text.replace(',', '.'));
        } catch (NumberFormatException e) {
            throw new InputException(
                    "\"" + text + "\" is no number for " + descriptor.id(), null, "write " + limits(descriptor), e);
        }
        BigDecimal minimum = descriptor.minimum();
        BigDecimal maximum = descriptor.maximum();
        BigDecimal step = descriptor.step();
        boolean outside = (minimum != null && number.compareTo(minimum) < 0)
                || (maximum != null && number.compareTo(maximum) > 0);
        if (outside || (step != null && number.remainder(step).signum() != 0)) {
            throw new InputException(text + " is no value of " + descriptor.id(), null, "write " + limits(descriptor));
        }
        return number.signum() == 0 ? "0" : number.stripTrailingZeros().toPlainString();
    }

    /** "a number from 0 to 4 in steps of 0.5 (grade)". */
    public static String limits(Descriptor descriptor) {
        BigDecimal minimum = descriptor.minimum();
        BigDecimal maximum = descriptor.maximum();
        BigDecimal step = descriptor.step();
        return "a number"
                + (minimum == null ? "" : " from " + minimum.toPlainString())
                + (maximum == null ? "" : " to " + maximum.toPlainString())
                + (step == null ? "" : " in steps of " + step.toPlainString())
                + (descriptor.unit().isEmpty() ? "" : " (" + descriptor.unit() + ")");
    }

    private static String words(Descriptor descriptor, String text) {
        if (text.length() > LONGEST_TEXT || text.lines().count() > 1) {
            throw new InputException(
                    descriptor.id() + " is longer than one line of " + LONGEST_TEXT + " characters",
                    null,
                    "say it shorter");
        }
        Identity.refuse(descriptor.id(), text);
        return text;
    }
}
