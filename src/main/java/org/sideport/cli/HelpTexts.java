package org.sideport.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import picocli.CommandLine;
import picocli.CommandLine.Model.UsageMessageSpec;

/**
 * Whole sentences in the lists of commands. The library lists a command by the first line of its description, which may
 * stop in the middle of one.
 */
final class HelpTexts {

    private static final Pattern SENTENCE = Pattern.compile("(?<=[.!?])\\s+(?=\\p{Lu})");
    private static final String EXAMPLE = "Example";

    private HelpTexts() {}

    /** The first sentence of each description by itself, the rest after it, examples as they are. */
    static void whole(CommandLine command) {
        UsageMessageSpec usage = command.getCommandSpec().usageMessage();
        usage.description(lines(List.of(usage.description())).toArray(new String[0]));
        command.getSubcommands().values().forEach(HelpTexts::whole);
    }

    static List<String> lines(List<String> written) {
        int examples = 0;
        while (examples < written.size() && !written.get(examples).startsWith(EXAMPLE)) {
            examples++;
        }
        List<String> lines = new ArrayList<>(List.of(
                SENTENCE.split(String.join(" ", written.subList(0, examples)).strip(), 2)));
        lines.addAll(written.subList(examples, written.size()));
        return lines;
    }
}
