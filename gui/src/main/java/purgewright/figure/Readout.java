package purgewright.figure;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.Units;

/**
 * How SI numbers are shown to people: the unit in which a quantity reads well, three significant digits, never an exponent where
 * a plain number fits. Factors are those of {@link Units}.
 */
public enum Readout {
    /** MPa, K, g/s, mm. */
    SI,
    /** psia, degF, lb/s, in. */
    US;

    private static final double PSI = Units.parse("1 psi", Dimension.PRESSURE_DIFFERENCE);
    private static final double POUND = Units.parse("1 lb", Dimension.MASS);
    private static final double FOOT = Units.parse("1 ft", Dimension.LENGTH);
    private static final double INCH = Units.parse("1 in", Dimension.LENGTH);
    private static final double BTU_PER_POUND = Units.parse("1 Btu/lb", Dimension.ENTHALPY);
    private static final double RPM = Units.parse("1 rpm", Dimension.ANGULAR_SPEED);
    /** A degree Fahrenheit, K. */
    private static final double DEGREE = Units.parse("1 degF", Dimension.TEMPERATURE_DIFFERENCE);
    /** Absolute zero, degF. */
    private static final double COLDEST = Units.in(0, Dimension.TEMPERATURE, "degF");

    /** Absolute pressure, Pa. */
    public String pressure(double pascal) {
        return this == SI ? with(pascal / 1e6, "MPa") : with(pascal / PSI, "psia");
    }

    /** Pressure difference, Pa. */
    public String pressureDifference(double pascal) {
        return this == SI ? with(pascal / 1e6, "MPa") : with(pascal / PSI, "psi");
    }

    /** Pressure in the unit of {@link #pressure}, for axes. */
    public double pressureNumber(double pascal) {
        return this == SI ? pascal / 1e6 : pascal / PSI;
    }

    /** Unit of {@link #pressureNumber}. */
    public String pressureUnit() {
        return this == SI ? "MPa" : "psia";
    }

    /** Temperature, K. */
    public String temperature(double kelvin) {
        return this == SI ? with(kelvin, "K") : with(temperatureNumber(kelvin), "°F");
    }

    /** Temperature difference, K. */
    public String temperatureDifference(double kelvin) {
        return this == SI ? with(kelvin, "K") : with(kelvin / DEGREE, "°F");
    }

    /** Temperature in the unit of {@link #temperature}, for axes. */
    public double temperatureNumber(double kelvin) {
        return this == SI ? kelvin : kelvin / DEGREE + COLDEST;
    }

    /** Unit of {@link #temperatureNumber}. */
    public String temperatureUnit() {
        return this == SI ? "K" : "°F";
    }

    /** Temperature (K) from a number in {@link #temperatureUnit}. */
    public double temperatureFrom(double number) {
        return this == SI ? number : (number - COLDEST) * DEGREE;
    }

    /** Specific enthalpy (J/kg) in {@link #enthalpyUnit}, for axes. */
    public double enthalpyNumber(double joulePerKilogram) {
        return this == SI ? joulePerKilogram / 1000 : joulePerKilogram / BTU_PER_POUND;
    }

    /** Unit of {@link #enthalpyNumber}. */
    public String enthalpyUnit() {
        return this == SI ? "kJ/kg" : "Btu/lb";
    }

    /** Specific entropy (J/(kg K)) in {@link #entropyUnit}, for axes. */
    public double entropyNumber(double joulePerKilogramKelvin) {
        return this == SI ? joulePerKilogramKelvin / 1000 : joulePerKilogramKelvin * DEGREE / BTU_PER_POUND;
    }

    /** Unit of {@link #entropyNumber}. */
    public String entropyUnit() {
        return this == SI ? "kJ/(kg K)" : "Btu/(lb °F)";
    }

    /** A round number on an axis: no more digits than it has. A true minus sign. */
    static String plain(double value) {
        String text = new BigDecimal(value)
                .round(new MathContext(6))
                .stripTrailingZeros()
                .toPlainString();
        return Math.abs(value) < 1e-12 ? "0" : text.replace('-', '−');
    }

    /** Mass flow, kg/s, without its sign. */
    public String flow(double kilogramPerSecond) {
        double m = Math.abs(kilogramPerSecond);
        if (this == US) {
            return with(m / POUND, "lb/s");
        }
        if (m >= 1) {
            return with(m, "kg/s");
        }
        return m < 1e-4 && m > 0 ? with(m * 1e6, "mg/s") : with(m * 1e3, "g/s");
    }

    /** Length, m. */
    public String length(double metre) {
        double l = Math.abs(metre);
        if (this == US) {
            return l < 0.1 * INCH ? with(metre / INCH * 1000, "mil") : with(metre / INCH, "in");
        }
        if (l >= 1) {
            return with(metre, "m");
        }
        return l < 0.5e-3 ? with(metre * 1e6, "µm") : with(metre * 1e3, "mm");
    }

    /** Speed, m/s. */
    public String speed(double metrePerSecond) {
        return this == SI ? with(metrePerSecond, "m/s") : with(metrePerSecond / FOOT, "ft/s");
    }

    /** Power, W. */
    public String power(double watt) {
        return Math.abs(watt) >= 1000 ? with(watt / 1000, "kW") : with(watt, "W");
    }

    /** A share of one as a percentage. */
    public String share(double share) {
        double percent = share * 100;
        if (percent > 99.9 && percent < 100 - 1e-9) {
            return ">99.9 %";
        }
        if (percent >= 100 - 1e-9) {
            return "100 %";
        }
        return percent > 0 && percent < 0.01 ? "<0.01 %" : number(percent, percent >= 99 ? 3 : 2) + " %";
    }

    /** Time, s. */
    public String time(double second) {
        double t = Math.abs(second);
        if (t > 0 && t < 1) {
            return with(second * 1000, "ms");
        }
        return t >= 600 ? with(second / 60, "min") : with(second, "s");
    }

    /** A number with the symbol under which the kernel hands it out: {@link Dimension#symbol}. */
    public String quantity(double value, String unit) {
        if (Double.isNaN(value)) {
            return "–";
        }
        return switch (unit) {
            case "Pa" -> pressure(value);
            case "Pa difference" -> pressureDifference(value);
            case "K" -> temperature(value);
            case "K difference" -> temperatureDifference(value);
            case "kg/s" -> value < 0 ? "−" + flow(value) : flow(value);
            case "m" -> length(value);
            case "m/s" -> speed(value);
            case "W" -> power(value);
            case "s" -> time(value);
            case "kg" -> this == SI ? with(value, "kg") : with(value / POUND, "lb");
            case "m3" -> this == SI ? with(value * 1e3, "L") : with(value / (INCH * INCH * INCH), "in3");
            case "m2" -> this == SI ? with(value * 1e6, "mm2") : with(value / (INCH * INCH), "in2");
            case "rad/s" -> with(value / RPM, "rpm");
            case "kg/m3" -> this == SI ? with(value, unit) : with(value * FOOT * FOOT * FOOT / POUND, "lb/ft3");
            case "1", "" -> ratio(value);
            default -> with(value, unit);
        };
    }

    /** A plain number: counts without decimals, traces in millionths. */
    private static String ratio(double value) {
        if (value == Math.rint(value) && Math.abs(value) < 1e6) {
            return value == 0 ? "0" : number(value, Math.max(1, (int) Math.log10(Math.abs(value)) + 1));
        }
        return Math.abs(value) < 1e-3 ? number(value * 1e6, 2) + " ppm" : number(value, 3);
    }

    /**
     * How an axis shows a quantity.
     *
     * @param factor shown number by SI number
     * @param offset added after the factor
     * @param unit its symbol; empty for a plain number
     */
    public record Scale(double factor, double offset, String unit) {
        /** As shown. */
        public double shown(double si) {
            return si * factor + offset;
        }

        /** Back to SI. */
        public double si(double shown) {
            return (shown - offset) / factor;
        }

        /** A title with the unit behind it. */
        public String title(String what) {
            return unit.isEmpty() ? what : what + ", " + unit;
        }
    }

    /**
     * The scale on which an axis of a quantity reads well.
     *
     * @param unit SI symbol, "1" for a plain number
     * @param largest greatest magnitude on the axis, SI
     */
    public Scale scale(String unit, double largest) {
        boolean si = this == SI;
        return switch (unit) {
            case "Pa" -> si ? new Scale(1e-6, 0, "MPa") : new Scale(1 / PSI, 0, "psia");
            case "Pa difference" -> si ? new Scale(1e-6, 0, "MPa") : new Scale(1 / PSI, 0, "psi");
            case "K" -> si ? new Scale(1, 0, "K") : new Scale(1 / DEGREE, COLDEST, "°F");
            case "K difference" -> si ? new Scale(1, 0, "K") : new Scale(1 / DEGREE, 0, "°F");
            case "kg/s" ->
                !si
                        ? new Scale(1 / POUND, 0, "lb/s")
                        : largest >= 1
                                ? new Scale(1, 0, "kg/s")
                                : largest < 1e-4 ? new Scale(1e6, 0, "mg/s") : new Scale(1e3, 0, "g/s");
            case "kg" -> si ? new Scale(1, 0, "kg") : new Scale(1 / POUND, 0, "lb");
            case "m" ->
                si
                        ? largest >= 1
                                ? new Scale(1, 0, "m")
                                : largest < 0.5e-3 ? new Scale(1e6, 0, "µm") : new Scale(1e3, 0, "mm")
                        : largest < 0.1 * INCH ? new Scale(1000 / INCH, 0, "mil") : new Scale(1 / INCH, 0, "in");
            case "m/s" -> si ? new Scale(1, 0, "m/s") : new Scale(1 / FOOT, 0, "ft/s");
            case "s" ->
                largest >= 7200
                        ? new Scale(1 / 3600.0, 0, "h")
                        : largest >= 600 ? new Scale(1 / 60.0, 0, "min") : new Scale(1, 0, "s");
            case "W" -> largest >= 1000 ? new Scale(1e-3, 0, "kW") : new Scale(1, 0, "W");
            case "rad/s" -> new Scale(1 / RPM, 0, "rpm");
            case "kg/m3" -> si ? new Scale(1, 0, unit) : new Scale(FOOT * FOOT * FOOT / POUND, 0, "lb/ft3");
            case "1", "" -> new Scale(1, 0, "");
            default -> new Scale(1, 0, unit);
        };
    }

    /** A relative margin, with its sign, in per cent. */
    public static String margin(double margin) {
        if (Double.isNaN(margin)) {
            return "–";
        }
        if (margin > 9.995) {
            return ">+999 %";
        }
        if (margin < -9.995) {
            return "<−999 %";
        }
        return (margin < 0 ? "−" : "+") + number(Math.abs(margin) * 100, Math.abs(margin) < 0.1 ? 2 : 3) + " %";
    }

    private static String with(double value, String unit) {
        return number(value, 3) + " " + unit;
    }

    /** A number with so many significant digits, plain between 1e-4 and 1e7. A true minus sign. */
    public static String number(double value, int digits) {
        if (Double.isNaN(value)) {
            return "–";
        }
        if (Double.isInfinite(value)) {
            return value > 0 ? "∞" : "−∞";
        }
        if (value == 0) {
            return "0";
        }
        BigDecimal rounded = new BigDecimal(Math.abs(value)).round(new MathContext(digits, RoundingMode.HALF_UP));
        double size = rounded.doubleValue();
        int missing = digits - rounded.precision();
        if (missing > 0 && size < Math.pow(10, digits)) {
            // 8 is known as well as 7.96: both show three digits.
            rounded = rounded.setScale(rounded.scale() + missing);
        }
        String text = size >= 1e-4 && size < 1e7
                ? rounded.toPlainString()
                : String.format(Locale.ROOT, "%." + Math.max(0, digits - 1) + "e", size)
                        .replaceAll("e([-+])0*([0-9])", "e$1$2")
                        .replace("e+", "e");
        return value < 0 ? "−" + text : text;
    }
}
