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

    /** The first sentence of each description by itself, then the rest of its paragraph; all else as it is written. */
    static void whole(CommandLine command) {
        UsageMessageSpec usage = command.getCommandSpec().usageMessage();
        usage.description(lines(List.of(usage.description())).toArray(new String[0]));
        command.getSubcommands().values().forEach(HelpTexts::whole);
    }

    static List<String> lines(List<String> written) {
        int paragraph = 0;
        while (paragraph < written.size() && isProse(written.get(paragraph))) {
            paragraph++;
        }
        List<String> lines = new ArrayList<>(List.of(
                SENTENCE.split(String.join(" ", written.subList(0, paragraph)).strip(), 2)));
        lines.addAll(written.subList(paragraph, written.size()));
        return lines;
    }

    private static boolean isProse(String line) {
        return !line.isBlank() && !line.startsWith(" ") && !line.startsWith(EXAMPLE);
    }
}
