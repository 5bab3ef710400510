package purgewright.report;

import java.util.ArrayList;
import java.util.List;
import purgewright.fluids.FluidState;

/** Lines of running text. */
final class Words {
    /** Columns of the text report. */
    static final int WIDTH = 100;

    private Words() {}

    /** Appends a paragraph: the first line after {@code first}, the others after {@code rest}. */
    static void paragraph(StringBuilder text, String first, String rest, String words) {
        String indent = first;
        for (String line : wrap(words, WIDTH - Math.max(first.length(), rest.length()))) {
            text.append(indent).append(line).append('\n');
            indent = rest;
        }
    }

    /** Lines of at most so many characters; a longer word stands alone. */
    static List<String> wrap(String words, int width) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : words.strip().split("\\s+")) {
            if (line.length() > 0 && line.length() + 1 + word.length() > width) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.length() == 0 ? "" : " ").append(word);
        }
        lines.add(line.toString());
        return lines;
    }

    /** {@code /passages/ring A} as {@code ring A}. */
    static String place(String pointer) {
        int slash = pointer.lastIndexOf('/');
        String last = slash < 0 ? pointer : pointer.substring(slash + 1);
        return last.replace("~1", "/").replace("~0", "~");
    }

    /** "clearance of ring A" for {@code /passages/ring A/clearance}, with the phase where one sets it; else the place itself. */
    static String value(String pointer) {
        String[] parts = pointer.split("/", -1);
        if (parts.length == 5 && parts[1].equals("duty") && parts[3].equals("set")) {
            return value(place("/" + parts[4])) + " in " + place("/" + parts[2]);
        }
        boolean named = parts.length == 4 && (parts[1].equals("cavities") || parts[1].equals("passages"));
        return named ? place("/" + parts[3]) + " of " + place("/" + parts[2]) : pointer;
    }

    /**
     * The phase in a word or two. Helium in a bottle line is supercritical by definition; to the reader of a table it is a gas, and
     * so is everything well below the critical density.
     */
    static String phase(FluidState state) {
        return switch (state.phase()) {
            case LIQUID -> "liquid";
            case GAS -> "gas";
            case SUPERCRITICAL -> state.density() < 0.5 * state.fluid().criticalDensity() ? "gas" : "supercritical";
            case TWO_PHASE -> "vapour " + Figures.percent(state.quality(), 3);
        };
    }
}
