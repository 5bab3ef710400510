package purgewright.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;

/** Numbers as the text report shows them: one unit a column, as many digits as a screening calculation deserves. */
final class Figures {
    private final UnitSystem system;

    Figures(UnitSystem system) {
        this.system = system;
    }

    private boolean us() {
        return system == UnitSystem.US;
    }

    String pressureUnit() {
        return us() ? "psia" : "MPa";
    }

    String pressureDifferenceUnit() {
        return us() ? "psi" : "MPa";
    }

    String temperatureUnit() {
        return us() ? "degF" : "K";
    }

    String flowUnit() {
        return us() ? "lb/s" : "g/s";
    }

    String clearanceUnit() {
        return us() ? "mil" : "um";
    }

    String speedUnit() {
        return us() ? "ft/s" : "m/s";
    }

    String massUnit() {
        return us() ? "lb" : "kg";
    }

    String mass(double kilograms) {
        return fixed(Units.in(kilograms, Dimension.MASS, massUnit()), 4);
    }

    /** A difference of two quantities, by the symbol that those carry. */
    String difference(double si, String unit) {
        if (Double.isNaN(si)) {
            return "-";
        }
        return switch (unit) {
            case "Pa" -> Units.format(si, Dimension.PRESSURE_DIFFERENCE, system, 3);
            case "K" -> Units.format(si, Dimension.TEMPERATURE_DIFFERENCE, system, 3);
            case "rad/s" -> Units.format(si, Dimension.ANGULAR_SPEED, system, 3);
            default -> quantity(si, unit);
        };
    }

    String pressure(double pascal) {
        return fixed(Units.in(pascal, Dimension.PRESSURE, pressureUnit()), 4);
    }

    String temperature(double kelvin) {
        return Double.isNaN(kelvin)
                ? "-"
                : String.format(Locale.ROOT, "%.1f", Units.in(kelvin, Dimension.TEMPERATURE, temperatureUnit()));
    }

    String flow(double kilogramsPerSecond) {
        return fixed(Units.in(kilogramsPerSecond, Dimension.MASS_FLOW, flowUnit()), 4);
    }

    String clearance(double metres) {
        return fixed(Units.in(metres, Dimension.LENGTH, clearanceUnit()), 3);
    }

    String speed(double metresPerSecond) {
        return fixed(Units.in(metresPerSecond, Dimension.SPEED, speedUnit()), 3);
    }

    /** A quantity with its unit, by the symbol that a finding carries: {@link Dimension#symbol}. */
    String quantity(double si, String unit) {
        if (Double.isNaN(si)) {
            return "-";
        }
        return switch (unit) {
            case "Pa" -> Units.format(si, Dimension.PRESSURE, system, 4);
            case "Pa difference" -> Units.format(si, Dimension.PRESSURE_DIFFERENCE, system, 4);
            case "m" -> Units.format(si, Dimension.LENGTH, system, 4);
            case "m/s" -> Units.format(si, Dimension.SPEED, system, 3);
            case "kg/s" -> Units.format(si, Dimension.MASS_FLOW, system, 4);
            case "W" -> power(si);
            case "s" -> Units.format(si, Dimension.TIME, system, 3);
            case "K" -> Units.format(si, Dimension.TEMPERATURE, system, 4);
            case "K difference" -> Units.format(si, Dimension.TEMPERATURE_DIFFERENCE, system, 4);
            case "kg" -> Units.format(si, Dimension.MASS, system, 4);
            case "rad/s" -> Units.format(si, Dimension.ANGULAR_SPEED, system, 4);
            case "kg/m3" -> Units.format(si, Dimension.DENSITY, system, 4);
            case "1", "" -> Units.number(si, 4);
            default -> Units.number(si, 4) + " " + unit;
        };
    }

    String power(double watts) {
        return Units.format(watts, Dimension.POWER, system, 3);
    }

    static String percent(double share, int digits) {
        double value = 100 * share;
        return Units.number(value, digits) + " %";
    }

    /** Significant digits as plain decimals, zeros kept so that columns align; tiny values with an exponent. */
    static String fixed(double value, int digits) {
        if (Double.isNaN(value)) {
            return "-";
        }
        double size = Math.abs(value);
        if (size == 0) {
            return "0";
        }
        if (size < 1e-4 || size >= 1e7) {
            return String.format(Locale.ROOT, "%." + (digits - 2) + "e", value);
        }
        // Rounded first: 0.99996 has one digit before the point once it is rounded to four.
        BigDecimal rounded = new BigDecimal(value).round(new MathContext(digits, RoundingMode.HALF_EVEN));
        int before = rounded.precision() - rounded.scale();
        return new BigDecimal(value)
                .setScale(Math.max(0, digits - before), RoundingMode.HALF_EVEN)
                .toPlainString();
    }

    /** A relative margin with its sign; beyond tenfold the figure says nothing more. */
    static String margin(double margin) {
        if (Double.isNaN(margin)) {
            return "-";
        }
        if (margin > 9.99) {
            return "> 999 %";
        }
        return margin < -9.99 ? "< -999 %" : String.format(Locale.ROOT, "%+.0f %%", 100 * margin);
    }
}
