package purgewright.fluids.phase;

import java.util.ArrayList;
import java.util.List;
import purgewright.fluids.helmholtz.Coefficients;

/**
 * Melting pressure over temperature, from the triple point up, in parts of one of three published forms:
 *
 * <pre>{@code
 * simon    p0 + a ((T/T0)^c - 1)
 * powers   p0 (1 + sum a ((T/T0)^t - 1))
 * shifted  p0 (1 + sum a (T/T0 - 1)^t)
 * }</pre>
 *
 * <p>Above the range of the last part nothing is known and nothing is checked. Immutable.
 */
final class MeltingLine {
    private record Part(String form, double[] row) {
        double pressure(double t) {
            double ratio = t / row[2];
            double sum = 0;
            for (int i = 4; i < row.length; i += 2) {
                switch (form) {
                    case "shifted" -> sum += row[i] * Math.pow(Math.max(ratio - 1, 0), row[i + 1]);
                    default -> sum += row[i] * (Math.pow(ratio, row[i + 1]) - 1);
                }
            }
            return form.equals("simon") ? row[3] + sum : row[3] * (1 + sum);
        }
    }

    private final List<Part> parts = new ArrayList<>();
    private final double tripleTemperature;

    MeltingLine(Coefficients coefficients) {
        tripleTemperature = coefficients.number("triple.temperature");
        for (String form : List.of("simon", "powers", "shifted")) {
            for (double[] row : coefficients.table("melting." + form)) {
                // parts that end at or below the triple point belong to other solids (ice Ih) and never bound the
                // liquid above it
                if (row[1] > tripleTemperature) {
                    parts.add(new Part(form, row));
                }
            }
        }
    }

    /** Melting pressure (Pa) at a temperature (K) from the triple point up; infinite where no line is known. */
    double pressure(double temperature) {
        for (Part part : parts) {
            if (temperature <= part.row[1]) {
                return part.pressure(Math.max(temperature, part.row[0]));
            }
        }
        return Double.POSITIVE_INFINITY;
    }

    /** True when the fluid has a line at all. */
    boolean known() {
        return !parts.isEmpty();
    }

    /** Highest temperature for which the line is known, K; 0 when there is none. */
    double maximumTemperature() {
        return parts.isEmpty() ? 0 : parts.get(parts.size() - 1).row[1];
    }
}
