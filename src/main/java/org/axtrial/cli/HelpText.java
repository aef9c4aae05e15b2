package org.axtrial.cli;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import org.axtrial.quantity.NearMiss;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.TypeConversionException;
import picocli.CommandLine.UnmatchedArgumentException;

/** What the program says about its own use: help that fits any width of a screen, and short words for a wrong call. */
final class HelpText {

    private HelpText() {}

    /** Lets help and messages of a command line, and of all its commands, be as this program has them. */
    static void on(CommandLine line) {
        line.registerConverter(LocalDate.class, HelpText::date);
        line.setParameterExceptionHandler(HelpText::refused);
        flow(line);
    }

    /** Sentences that the source breaks over several lines flow; the first one is what the list of commands shows. */
    private static void flow(CommandLine line) {
        var usage = line.getCommandSpec().usageMessage();
        usage.description(sentences(List.of(usage.description())).toArray(String[]::new));
        line.getSubcommands().values().forEach(HelpText::flow);
    }

    static List<String> sentences(List<String> lines) {
        List<String> flowing = new ArrayList<>();
        boolean open = false;
        for (String text : lines) {
            if (open && !text.isEmpty() && !text.startsWith(" ")) {
                flowing.add(flowing.remove(flowing.size() - 1) + " " + text);
            } else {
                flowing.add(text);
            }
            open = !text.isEmpty() && !".".equals(last(text)) && !":".equals(last(text)) && !"\"".equals(last(text));
        }
        if (!flowing.isEmpty()) {
            String first = flowing.remove(0);
            int end = first.indexOf(". ");
            if (end > 0) {
                flowing.add(0, first.substring(end + 2));
                first = first.substring(0, end + 1);
            }
            flowing.add(0, first);
        }
        return flowing;
    }

    private static String last(String text) {
        return text.substring(text.length() - 1);
    }

    private static LocalDate date(String typed) {
        try {
            return LocalDate.parse(typed);
        } catch (DateTimeParseException e) {
            throw new TypeConversionException(
                    "\"" + typed + "\" is no date; write year-month-day, for example 2027-01-31");
        }
    }

    private static String message(ParameterException refused, CommandLine line) {
        if (refused instanceof UnmatchedArgumentException unmatched
                && !line.getSubcommands().isEmpty()
                && !unmatched.getUnmatched().get(0).startsWith("-")) {
            String word = unmatched.getUnmatched().get(0);
            return "\"" + word + "\" is no command; "
                    + NearMiss.hintOrAll(word, line.getSubcommands().keySet());
        }
        if (refused instanceof UnmatchedArgumentException unmatched) {
            return "not known here: " + String.join(" ", unmatched.getUnmatched())
                    + suggestions(unmatched.getSuggestions());
        }
        return String.valueOf(refused.getMessage());
    }

    private static String suggestions(List<String> close) {
        return close.isEmpty() ? "" : "; did you mean " + String.join(", ", close) + "?";
    }

    /** The message alone: a whole help text would push it off the screen of a tablet. */
    private static int refused(ParameterException refused, String[] words) {
        CommandLine line = refused.getCommandLine();
        line.getErr().println(message(refused, line));
        line.getErr().println("All options: " + line.getCommandSpec().qualifiedName() + " --help. Nothing has moved.");
        line.getErr().flush();
        return line.getCommandSpec().exitCodeOnInvalidInput();
    }
}
