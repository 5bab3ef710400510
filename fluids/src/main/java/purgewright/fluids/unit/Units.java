package purgewright.fluids.unit;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.fluids.unit.UnitException.Key;
import purgewright.fluids.unit.UnitTable.Entry;
import purgewright.fluids.unit.UnitTable.Zero;

/**
 * Text to SI and back: {@code "0.08 mm"}, {@code "45 psi gauge"}, {@code "40 L/min at 0 degC"}.
 *
 * <p>A text is a number with a decimal point, a unit, and for pressures {@code gauge} or {@code absolute}; absolute is meant when
 * nothing is said. A unit is a product of symbols: {@code W/(m2 K)}, {@code lb/(ft s)}, {@code kg/m^3}. {@code degC} and
 * {@code degF} are temperatures when alone and steps of temperature in a product or a difference. {@code Hz} as an angular speed
 * is a turn a second. Nothing depends on the locale; a decimal comma is an error with a suggestion.
 *
 * <p>A mass flow may be written as a volume flow of gas at a stated temperature and, unless stated too, 101.325 kPa:
 * {@code "12 ft3/min at 60 degF"}, {@code "40 L/min at 15 degC and 1 bar"}. Units such as scfm, whose reference state differs
 * from trade to trade, are refused.
 */
public final class Units {
    /** Pressure at which a standard volume flow is meant when its text names a temperature only, Pa. */
    public static final double STANDARD_PRESSURE = 101325;

    private static final double CELSIUS_ZERO = 273.15;
    private static final double FAHRENHEIT_ZERO = 459.67;
    private static final int LONGEST_TEXT = 200;
    /** Characters of a number that a double holds exactly when it is whole. */
    private static final int EXACT_DIGITS = 15;

    private static final Map<Dimension, Long> EXPONENTS = new EnumMap<>(Dimension.class);

    static {
        for (Dimension dimension : Dimension.values()) {
            EXPONENTS.put(
                    dimension,
                    switch (dimension) {
                        case MONEY -> UnitTable.MONEY;
                        case MONEY_PER_MASS -> UnitTable.MONEY - UnitTable.MASS;
                        case MONEY_PER_TIME -> UnitTable.MONEY - UnitTable.TIME;
                        default -> new UnitReader(dimension.si()).read().exponents();
                    });
        }
    }

    private Units() {}

    /**
     * The SI value of a text that needs nothing from outside.
     *
     * @throws UnitException also for a gauge pressure and for a standard volume flow
     */
    public static double parse(String text, Dimension dimension) {
        return parse(text, dimension, Double.NaN, null);
    }

    /**
     * The SI value of a text.
     *
     * @param surroundings absolute pressure around the machine, Pa, that gauge pressures are above
     * @throws UnitException also for a standard volume flow
     */
    public static double parse(String text, Dimension dimension, double surroundings) {
        return parse(text, dimension, surroundings, null);
    }

    /**
     * The SI value of a text.
     *
     * @param surroundings absolute pressure around the machine, Pa, that gauge pressures are above; NaN when not known
     * @param gas density of the gas that a standard volume flow belongs to; null when not known
     * @throws UnitException with every reason named in {@link UnitException.Key}
     */
    public static double parse(String text, Dimension dimension, double surroundings, GasDensity gas) {
        Parts parts = split(text, dimension);
        if (!parts.at.isEmpty()) {
            return standardFlow(text, parts, dimension, gas);
        }
        if (parts.unit.isEmpty()) {
            if (dimension == Dimension.NUMBER || dimension == Dimension.MONEY) {
                return finite(text, parts.value);
            }
            String guess = "give a unit, for instance \"" + parts.number + " "
                    + commonUnits(dimension).get(0) + "\"";
            throw problem(
                    Key.MISSING_UNIT,
                    text,
                    quoted(text) + " has no unit; " + describe(dimension) + " is expected",
                    guess,
                    Map.of("expected", describe(dimension)));
        }
        Entry unit = unit(text, parts, dimension);
        Zero zero = zero(text, parts, unit, dimension);
        double si = toSi(parts, unit, zero, dimension, text, surroundings);
        return checked(text, si, dimension);
    }

    /**
     * A quantity of any dimension, as criteria give them.
     *
     * @return SI value and the dimension found; several dimensions may share units, then the first of the enum
     * @throws UnitException when the text is no quantity
     */
    public static Quantity parseAny(String text, double surroundings) {
        Parts parts = split(text, null);
        if (parts.unit.isEmpty()) {
            return new Quantity(finite(text, parts.value), Dimension.NUMBER);
        }
        Entry unit = unit(text, parts, null);
        for (Dimension dimension : Dimension.values()) {
            boolean difference = unit.zero() == Zero.DIFFERENCE && dimension == Dimension.PRESSURE;
            if (EXPONENTS.get(dimension) == unit.exponents() && !difference) {
                return new Quantity(parse(text, dimension, surroundings, null), dimension);
            }
        }
        throw problem(
                Key.WRONG_DIMENSION,
                text,
                quoted(text) + " is in a unit of nothing that a case knows",
                "",
                Map.of("unit", parts.unit));
    }

    /**
     * An SI value with its dimension.
     *
     * @param si in the dimension's SI unit
     * @param dimension what it measures
     */
    public record Quantity(double si, Dimension dimension) {}

    /** True when the text starts as a number does, so that it is meant as a quantity and not as a word. */
    public static boolean looksNumeric(String text) {
        String plain = clean(text);
        return !plain.isEmpty() && numberEnd(plain) > 0;
    }

    /** Value of an SI figure in a unit, for tables that keep one unit a column; {@code degC} and {@code degF} as temperatures. */
    public static double in(double si, Dimension dimension, String unitText) {
        Entry unit = new UnitReader(unitText).read();
        if (unit == null || !fits(unit, dimension)) {
            throw new IllegalArgumentException(unitText + " is no unit of " + describe(dimension));
        }
        double scaled = si * unit.denominator() / unit.numerator();
        if (dimension == Dimension.TEMPERATURE && unit.zero() == Zero.CELSIUS) {
            return si - CELSIUS_ZERO;
        }
        if (dimension == Dimension.TEMPERATURE && unit.zero() == Zero.FAHRENHEIT) {
            return scaled - FAHRENHEIT_ZERO;
        }
        if (dimension == Dimension.ANGULAR_SPEED && unit.exponents() == -UnitTable.TIME) {
            return scaled / (2 * Math.PI);
        }
        return scaled;
    }

    /**
     * The SI value as an engineer would write it, for instance {@code "1.71 MPa"} or {@code "32000 rpm"}; it parses back.
     *
     * @param si value in the dimension's SI unit; NaN gives "n/a"
     * @param digits significant digits, 1 to 17; zeros at the end of a fraction are dropped
     */
    public static String format(double si, Dimension dimension, UnitSystem system, int digits) {
        if (Double.isNaN(si)) {
            return "n/a";
        }
        String unit = displayUnit(si, dimension, system);
        String number = number(unit.isEmpty() ? si : in(si, dimension, unit), digits);
        return unit.isEmpty() ? number : number + " " + unit;
    }

    /** A figure with so many significant digits, decimal point, no group separators, zeros at the end of a fraction dropped. */
    public static String number(double value, int digits) {
        if (Double.isNaN(value)) {
            return "n/a";
        }
        if (Double.isInfinite(value)) {
            return value > 0 ? "infinite" : "-infinite";
        }
        if (value == 0) {
            return "0";
        }
        BigDecimal rounded = new BigDecimal(value)
                .round(new MathContext(Math.max(1, Math.min(17, digits)), RoundingMode.HALF_EVEN))
                .stripTrailingZeros();
        double size = Math.abs(value);
        if (size >= 1e9 || size < 1e-4) {
            return Double.toString(rounded.doubleValue()).replace("E", "e");
        }
        return rounded.toPlainString();
    }

    /** The unit that {@link #format} writes a value in; empty for pure numbers and money. */
    public static String displayUnit(double si, Dimension dimension, UnitSystem system) {
        double size = Math.abs(si);
        boolean us = system == UnitSystem.US;
        return switch (dimension) {
            case NUMBER, MONEY -> "";
            case PRESSURE -> us ? "psia" : size >= 1e6 ? "MPa" : size >= 1e3 ? "kPa" : "Pa";
            case PRESSURE_DIFFERENCE -> us ? "psi" : size >= 1e6 ? "MPa" : size >= 1e3 ? "kPa" : "Pa";
            case MODULUS -> us ? "ksi" : size >= 1e9 ? "GPa" : "MPa";
            case TEMPERATURE -> us ? "degF" : "K";
            case TEMPERATURE_DIFFERENCE -> us ? "degF" : "K";
            case LENGTH ->
                us
                        ? size >= 10 * 12 * 0.0254 ? "ft" : size >= 0.1 * 0.0254 || size == 0 ? "in" : "mil"
                        : size >= 1 ? "m" : size >= 1e-4 || size == 0 ? "mm" : "um";
            case AREA -> us ? "in2" : size >= 0.1 ? "m2" : "mm2";
            case VOLUME -> us ? (size >= 0.0283 ? "ft3" : "in3") : size >= 1 ? "m3" : size >= 1e-4 ? "L" : "cm3";
            case ANGULAR_SPEED -> "rpm";
            case SPEED -> us ? "ft/s" : "m/s";
            case MASS -> us ? "lb" : size >= 1 || size == 0 ? "kg" : "g";
            case MASS_FLOW -> us ? "lb/s" : size >= 1 ? "kg/s" : size >= 1e-4 || size == 0 ? "g/s" : "mg/s";
            case VOLUME_FLOW -> us ? "ft3/min" : size >= 0.1 ? "m3/s" : "L/min";
            case TIME -> size >= 2 * 86400 ? "d" : size >= 2 * 3600 ? "h" : size >= 1 || size == 0 ? "s" : "ms";
            case FORCE -> us ? "lbf" : size >= 1e3 ? "kN" : "N";
            case STIFFNESS -> us ? "lbf/in" : "N/mm";
            case POWER -> us ? "hp" : size >= 1e6 ? "MW" : size >= 1e3 ? "kW" : "W";
            case CONDUCTANCE -> us ? "Btu/(h degF)" : "W/K";
            case HEAT_TRANSFER_COEFFICIENT -> us ? "Btu/(h ft2 degF)" : "W/(m2 K)";
            case DENSITY -> us ? "lb/ft3" : "kg/m3";
            case ENTHALPY -> us ? "Btu/lb" : "kJ/kg";
            case ENTROPY -> us ? "Btu/(lb degF)" : "kJ/(kg K)";
            case VISCOSITY -> us ? "cP" : size >= 1e-3 ? "mPa s" : "uPa s";
            case CONDUCTIVITY -> us ? "Btu/(h ft degF)" : "W/(m K)";
            case EXPANSION -> us ? "1/degF" : "1/K";
            case ANGLE -> "deg";
            case DROOP -> us ? "psi s/lb" : "kPa s/g";
            case FREQUENCY -> "Hz";
            case HEAT_CAPACITY -> us ? "Btu/degF" : "J/K";
            case TORQUE -> us ? "lbf ft" : "N m";
            case MONEY_PER_MASS -> us ? "$/lb" : "EUR/kg";
            case MONEY_PER_TIME -> us ? "$/d" : "EUR/d";
        };
    }

    /** In words, with article, for instance "a length". */
    public static String describe(Dimension dimension) {
        return switch (dimension) {
            case NUMBER -> "a plain number";
            case PRESSURE -> "a pressure";
            case PRESSURE_DIFFERENCE -> "a pressure difference";
            case TEMPERATURE -> "a temperature";
            case TEMPERATURE_DIFFERENCE -> "a temperature difference";
            case LENGTH -> "a length";
            case AREA -> "an area";
            case VOLUME -> "a volume";
            case ANGULAR_SPEED -> "a rotational speed";
            case SPEED -> "a speed";
            case MASS -> "a mass";
            case MASS_FLOW -> "a mass flow";
            case VOLUME_FLOW -> "a volume flow";
            case TIME -> "a time";
            case FORCE -> "a force";
            case STIFFNESS -> "a stiffness";
            case POWER -> "a power";
            case CONDUCTANCE -> "a thermal conductance";
            case HEAT_TRANSFER_COEFFICIENT -> "a heat transfer coefficient";
            case DENSITY -> "a density";
            case ENTHALPY -> "a specific enthalpy";
            case ENTROPY -> "a specific entropy";
            case VISCOSITY -> "a dynamic viscosity";
            case CONDUCTIVITY -> "a thermal conductivity";
            case MODULUS -> "a modulus of elasticity";
            case EXPANSION -> "a coefficient of thermal expansion";
            case ANGLE -> "an angle";
            case DROOP -> "a pressure droop by flow";
            case MONEY -> "an amount of money";
            case FREQUENCY -> "a frequency";
            case HEAT_CAPACITY -> "a heat capacity";
            case TORQUE -> "a torque";
            case MONEY_PER_MASS -> "a price by mass";
            case MONEY_PER_TIME -> "a rent by time";
        };
    }

    /** A text that would be right, for instance {@code 3.1 MPa}. */
    public static String example(Dimension dimension) {
        return switch (dimension) {
            case NUMBER -> "0.7";
            case PRESSURE -> "3.1 MPa";
            case PRESSURE_DIFFERENCE -> "20 kPa";
            case TEMPERATURE -> "-183 degC";
            case TEMPERATURE_DIFFERENCE -> "50 K";
            case LENGTH -> "0.08 mm";
            case AREA -> "40 cm2";
            case VOLUME -> "20 cm3";
            case ANGULAR_SPEED -> "36000 rpm";
            case SPEED -> "5 m/s";
            case MASS -> "60 kg";
            case MASS_FLOW -> "7 g/s";
            case VOLUME_FLOW -> "0.2 m3/s";
            case TIME -> "250 ms";
            case FORCE -> "1.2 kN";
            case STIFFNESS -> "30 N/mm";
            case POWER -> "120 kW";
            case CONDUCTANCE -> "4 W/K";
            case HEAT_TRANSFER_COEFFICIENT -> "300 W/(m2 K)";
            case DENSITY -> "8190 kg/m3";
            case ENTHALPY -> "310 kJ/kg";
            case ENTROPY -> "5.2 kJ/(kg K)";
            case VISCOSITY -> "0.19 mPa s";
            case CONDUCTIVITY -> "0.15 W/(m K)";
            case MODULUS -> "200 GPa";
            case EXPANSION -> "13e-6 1/K";
            case ANGLE -> "15 deg";
            case DROOP -> "12 kPa s/g";
            case MONEY -> "450 EUR";
            case FREQUENCY -> "1 kHz";
            case HEAT_CAPACITY -> "25 kJ/K";
            case TORQUE -> "3 N m";
            case MONEY_PER_MASS -> "95 EUR/kg";
            case MONEY_PER_TIME -> "4 EUR/d";
        };
    }

    /** Units that are usual for a dimension, the first the most. */
    public static List<String> commonUnits(Dimension dimension) {
        return switch (dimension) {
            case NUMBER -> List.of("%", "ppm");
            case PRESSURE ->
                List.of(
                        "MPa", "kPa", "Pa", "bar", "psi", "psia", "psig", "barg", "bara", "atm", "torr", "mmHg", "inHg",
                        "ata", "mbar", "hPa");
            case PRESSURE_DIFFERENCE -> List.of("kPa", "MPa", "Pa", "bar", "psi", "psid", "mbar", "mmHg", "inH2O");
            case TEMPERATURE -> List.of("K", "degC", "degF", "R");
            case TEMPERATURE_DIFFERENCE -> List.of("K", "degC", "degF", "R");
            case LENGTH -> List.of("mm", "um", "m", "cm", "in", "mil", "ft");
            case AREA -> List.of("mm2", "cm2", "m2", "in2", "ft2");
            case VOLUME -> List.of("cm3", "L", "m3", "mL", "in3", "ft3", "gal");
            case ANGULAR_SPEED -> List.of("rpm", "rad/s", "Hz", "rev/min");
            case SPEED -> List.of("m/s", "mm/s", "ft/s", "km/h", "mm/h");
            case MASS -> List.of("kg", "g", "mg", "t", "lb");
            case MASS_FLOW -> List.of("g/s", "kg/s", "mg/s", "kg/h", "lb/s", "lb/h", "lb/min");
            case VOLUME_FLOW -> List.of("m3/s", "L/min", "m3/h", "ft3/min", "gal/min", "L/s");
            case TIME -> List.of("s", "ms", "min", "h", "d");
            case FORCE -> List.of("N", "kN", "lbf", "kgf");
            case STIFFNESS -> List.of("N/mm", "N/m", "kN/mm", "lbf/in");
            case POWER -> List.of("kW", "W", "MW", "hp", "Btu/h");
            case CONDUCTANCE -> List.of("W/K", "kW/K", "Btu/(h degF)");
            case HEAT_TRANSFER_COEFFICIENT -> List.of("W/(m2 K)", "kW/(m2 K)", "Btu/(h ft2 degF)");
            case DENSITY -> List.of("kg/m3", "g/cm3", "lb/ft3", "lb/in3");
            case ENTHALPY -> List.of("kJ/kg", "J/kg", "MJ/kg", "Btu/lb");
            case ENTROPY -> List.of("kJ/(kg K)", "J/(kg K)", "Btu/(lb degF)");
            case VISCOSITY -> List.of("Pa s", "mPa s", "uPa s", "cP", "lb/(ft s)");
            case CONDUCTIVITY -> List.of("W/(m K)", "mW/(m K)", "Btu/(h ft degF)");
            case MODULUS -> List.of("GPa", "MPa", "Pa", "ksi", "Mpsi");
            case EXPANSION -> List.of("1/K", "um/(m K)", "1/degF", "ppm/K");
            case ANGLE -> List.of("deg", "rad", "mrad");
            case DROOP -> List.of("kPa s/g", "MPa s/kg", "Pa s/kg", "psi s/lb");
            case MONEY -> List.of("EUR", "USD", "GBP", "CHF", "JPY");
            case FREQUENCY -> List.of("Hz", "kHz", "1/s");
            case HEAT_CAPACITY -> List.of("kJ/K", "J/K", "Btu/degF");
            case TORQUE -> List.of("N m", "mN m", "lbf ft", "lbf in");
            case MONEY_PER_MASS -> List.of("EUR/kg", "USD/kg", "USD/lb");
            case MONEY_PER_TIME -> List.of("EUR/d", "USD/d", "EUR/week");
        };
    }

    // --- reading
    // ---------------------------------------------------------------------------------------------------------

    /** A text taken apart: number, unit, "gauge" or "absolute", and what follows "at". */
    private record Parts(String number, double value, String unit, Zero said, String at) {}

    private static Parts split(String text, Dimension dimension) {
        if (text.length() > LONGEST_TEXT) {
            throw problem(
                    Key.OUT_OF_RANGE,
                    text.substring(0, 40) + " ...",
                    "a quantity of " + text.length() + " characters is no quantity",
                    dimension == null ? "" : "write it like \"" + example(dimension) + "\"",
                    Map.of());
        }
        String plain = clean(text);
        int end = numberEnd(plain);
        if (end == 0) {
            throw problem(
                    Key.NOT_A_NUMBER,
                    text,
                    quoted(text) + " does not start with a number"
                            + (dimension == null ? "" : "; " + describe(dimension) + " is expected"),
                    dimension == null ? "" : "write it like \"" + example(dimension) + "\"",
                    Map.of());
        }
        String number = plain.substring(0, end);
        String rest = plain.substring(end);
        if (!rest.isEmpty() && rest.charAt(0) == ',') {
            throw comma(text, number, rest);
        }
        double value = Double.parseDouble(number);
        finite(text, value);
        rest = rest.strip();
        String at = "";
        int atPlace = rest.indexOf(" at ");
        if (atPlace >= 0) {
            at = rest.substring(atPlace + 4).strip();
            rest = rest.substring(0, atPlace).strip();
        }
        Zero said = Zero.PLAIN;
        String lower = rest.toLowerCase(Locale.ROOT);
        for (String word : List.of(" gauge", " gage", "(g)", " g")) {
            if (lower.endsWith(word) && (!" g".equals(word) || pressureUnit(rest, word))) {
                said = Zero.GAUGE;
                rest = rest.substring(0, rest.length() - word.length()).strip();
                break;
            }
        }
        if (said == Zero.PLAIN) {
            for (String word : List.of(" absolute", " abs", "(a)", " abs.")) {
                if (lower.endsWith(word)) {
                    said = Zero.ABSOLUTE;
                    rest = rest.substring(0, rest.length() - word.length()).strip();
                    break;
                }
            }
        }
        return new Parts(number, value, rest, said, at);
    }

    /** "3 bar g" is a gauge pressure, "3 Pa g" is no unit at all: either way the letter is no gram after a pressure. */
    private static boolean pressureUnit(String rest, String word) {
        Entry unit =
                UnitTable.find(rest.substring(0, rest.length() - word.length()).strip());
        return unit != null && unit.exponents() == EXPONENTS.get(Dimension.PRESSURE);
    }

    private static UnitException comma(String text, String number, String rest) {
        int end = 1;
        while (end < rest.length() && Character.isDigit(rest.charAt(end))) {
            end++;
        }
        String digits = rest.substring(1, end);
        String tail = rest.substring(end);
        String suggestion = digits.isEmpty() || number.contains(".") || tail.startsWith(",")
                ? "write the number with a decimal point and nothing between thousands"
                : "did you mean \"" + number + "." + digits + tail + "\""
                        + (digits.length() == 3 ? " or \"" + number + digits + tail + "\"" : "") + "?";
        return problem(
                Key.DECIMAL_COMMA,
                text,
                quoted(text) + " has a comma in its number; the decimal sign is a point",
                suggestion,
                Map.of());
    }

    private static Entry unit(String text, Parts parts, Dimension dimension) {
        if (isStandardSlang(parts.unit)) {
            throw problem(
                    Key.NEEDS_REFERENCE_STATE,
                    text,
                    quoted(parts.unit) + " names no reference state that all trades agree on",
                    "state it, for instance \"" + parts.number + " " + withoutSlang(parts.unit) + "\"",
                    Map.of("unit", parts.unit));
        }
        Entry unit = new UnitReader(parts.unit).read();
        if (unit == null) {
            throw unknown(text, parts, dimension);
        }
        if (dimension != null && !fits(unit, dimension)) {
            throw mismatch(text, parts, unit, dimension);
        }
        return unit;
    }

    private static boolean fits(Entry unit, Dimension dimension) {
        long wanted = EXPONENTS.get(dimension);
        return unit.exponents() == wanted
                || (dimension == Dimension.ANGULAR_SPEED
                        && unit.exponents() == -UnitTable.TIME
                        && unit.zero() == Zero.PLAIN);
    }

    private static UnitException mismatch(String text, Parts parts, Entry unit, Dimension dimension) {
        String expected = describe(dimension);
        if (dimension == Dimension.MASS_FLOW && unit.exponents() == EXPONENTS.get(Dimension.VOLUME_FLOW)) {
            return problem(
                    Key.NEEDS_REFERENCE_STATE,
                    text,
                    quoted(text) + " is a volume flow; which mass that is depends on the state it is measured at",
                    "give a mass flow such as \"7 g/s\", or the reference: \"" + parts.number + " " + parts.unit
                            + " at 0 degC\"",
                    Map.of("unit", parts.unit));
        }
        String found = "something else";
        for (Dimension other : Dimension.values()) {
            if (EXPONENTS.get(other) == unit.exponents()) {
                found = describe(other);
                break;
            }
        }
        return problem(
                Key.WRONG_DIMENSION,
                text,
                dimension == Dimension.NUMBER
                        ? quoted(text) + " is " + found + ", but here a plain number is expected"
                        : quoted(text) + " is " + found + ", but here " + expected + " is expected",
                "write it like " + (dimension == Dimension.NUMBER ? "" : "\"") + example(dimension)
                        + (dimension == Dimension.NUMBER ? "" : "\""),
                Map.of("unit", parts.unit, "expected", expected));
    }

    private static UnitException unknown(String text, Parts parts, Dimension dimension) {
        String slip = UnitTable.knownSlip(parts.unit);
        if (slip == null) {
            List<String> usual = new ArrayList<>();
            for (Dimension each : Dimension.values()) {
                if (dimension == null || dimension == each) {
                    usual.addAll(commonUnits(each));
                }
            }
            slip = DidYouMean.nearest(parts.unit, usual).orElse(null);
            if (slip == null) {
                slip = DidYouMean.nearest(parts.unit, UnitTable.symbols())
                        .filter(symbol -> dimension == null || fits(UnitTable.find(symbol), dimension))
                        .orElse(null);
            }
        }
        String suggestion = slip != null
                ? "did you mean \"" + parts.number + " " + slip + (parts.said == Zero.GAUGE ? " gauge" : "") + "\"?"
                : dimension == null
                        ? ""
                        : "usual units of " + describe(dimension).replaceFirst("^an? ", "") + ": "
                                + String.join(", ", commonUnits(dimension));
        return problem(
                Key.UNKNOWN_UNIT,
                text,
                quoted(parts.unit) + " is no unit known here"
                        + (dimension == null ? "" : "; " + describe(dimension) + " is expected"),
                suggestion,
                Map.of("unit", parts.unit));
    }

    private static Zero zero(String text, Parts parts, Entry unit, Dimension dimension) {
        Zero own = unit.zero();
        Zero said = parts.said;
        boolean kind = own == Zero.GAUGE || own == Zero.ABSOLUTE;
        if (dimension != Dimension.PRESSURE && (said != Zero.PLAIN || kind)) {
            throw problem(
                    Key.GAUGE_NOT_ALLOWED,
                    text,
                    quoted(text) + " says gauge or absolute, but here " + describe(dimension) + " is expected",
                    "write it like \"" + example(dimension) + "\"",
                    Map.of("expected", describe(dimension)));
        }
        if (dimension == Dimension.PRESSURE && own == Zero.DIFFERENCE) {
            throw problem(
                    Key.WRONG_DIMENSION,
                    text,
                    quoted(text) + " is a pressure difference, but here a pressure is expected",
                    "say which zero: \"" + parts.number + " psia\" or \"" + parts.number + " psig\"",
                    Map.of("unit", parts.unit, "expected", describe(dimension)));
        }
        if (kind && said != Zero.PLAIN && said != own) {
            throw problem(
                    Key.GAUGE_NOT_ALLOWED,
                    text,
                    quoted(text) + " says gauge and absolute at once",
                    "say one of them",
                    Map.of("expected", describe(dimension)));
        }
        return said == Zero.PLAIN ? own : said;
    }

    private static double toSi(
            Parts parts, Entry unit, Zero zero, Dimension dimension, String text, double surroundings) {
        if (dimension == Dimension.TEMPERATURE && zero == Zero.CELSIUS) {
            return sum(parts.value, CELSIUS_ZERO);
        }
        if (dimension == Dimension.TEMPERATURE && zero == Zero.FAHRENHEIT) {
            return sum(parts.value, FAHRENHEIT_ZERO) * 5 / 9;
        }
        double scaled = scaled(parts, unit);
        if (dimension == Dimension.ANGULAR_SPEED && unit.exponents() == -UnitTable.TIME) {
            return scaled * 2 * Math.PI;
        }
        if (zero == Zero.GAUGE) {
            if (Double.isNaN(surroundings)) {
                throw problem(
                        Key.GAUGE_NEEDS_SURROUNDINGS,
                        text,
                        quoted(text) + " is a gauge pressure, and the pressure of the surroundings is not known here",
                        "give an absolute pressure",
                        Map.of());
            }
            return scaled + surroundings;
        }
        return scaled;
    }

    /** The double nearest to number times factor, so that "0.09 mm" and "90 um" are the same 9e-5. */
    private static double scaled(Parts parts, Entry unit) {
        double plain = parts.value * unit.numerator() / unit.denominator();
        if (plain == 0 || !Double.isFinite(plain)) {
            return plain;
        }
        // Whole numbers of few digits are what they say, and one operation on them rounds once.
        if (parts.number.length() <= EXACT_DIGITS
                && parts.value == Math.rint(parts.value)
                && (unit.numerator() == 1 || unit.denominator() == 1)
                && isExact(parts.value * unit.numerator())
                && isExact(unit.numerator())
                && isExact(unit.denominator())) {
            return plain;
        }
        return new BigDecimal(parts.number)
                .multiply(new BigDecimal(unit.numerator()))
                .divide(new BigDecimal(unit.denominator()), MathContext.DECIMAL128)
                .doubleValue();
    }

    private static boolean isExact(double whole) {
        return whole == Math.rint(whole) && Math.abs(whole) < 0x1p53;
    }

    /** Decimal sum, so that -183 degC is 90.15 K. */
    private static double sum(double value, double zero) {
        return BigDecimal.valueOf(value).add(BigDecimal.valueOf(zero)).doubleValue();
    }

    private static double checked(String text, double si, Dimension dimension) {
        finite(text, si);
        if (dimension == Dimension.PRESSURE && si < 0) {
            throw problem(
                    Key.BELOW_ABSOLUTE_ZERO,
                    text,
                    quoted(text) + " is " + number(-si / 1000, 4) + " kPa below absolute zero",
                    "the lowest gauge pressure is minus the pressure of the surroundings",
                    Map.of("pressure", si));
        }
        if (dimension == Dimension.TEMPERATURE && si < 0) {
            throw problem(
                    Key.BELOW_ZERO_KELVIN,
                    text,
                    quoted(text) + " is " + number(-si, 4) + " K below absolute zero",
                    "the lowest temperature is 0 K = -273.15 degC = -459.67 degF",
                    Map.of("temperature", si));
        }
        return si;
    }

    private static double standardFlow(String text, Parts parts, Dimension dimension, GasDensity gas) {
        if (dimension != Dimension.MASS_FLOW) {
            throw problem(
                    Key.WRONG_DIMENSION,
                    text,
                    quoted(text) + " is a flow at a reference state, but here " + describe(dimension) + " is expected",
                    "write it like \"" + example(dimension) + "\"",
                    Map.of("unit", parts.unit, "expected", describe(dimension)));
        }
        Entry unit = unit(text, parts, Dimension.VOLUME_FLOW);
        String[] reference = parts.at.split("\\s+and\\s+|\\s*,\\s+", 2);
        double temperature = parse(reference[0], Dimension.TEMPERATURE);
        double pressure = reference.length > 1 ? parse(reference[1], Dimension.PRESSURE) : STANDARD_PRESSURE;
        if (!(temperature > 0 && pressure > 0)) {
            throw problem(
                    Key.OUT_OF_RANGE,
                    text,
                    quoted(parts.at) + " is no state of a gas",
                    "for instance \"at 0 degC\"",
                    Map.of());
        }
        if (gas == null) {
            throw problem(
                    Key.NEEDS_GAS,
                    text,
                    quoted(text) + " is a volume flow of gas, and which gas is not known here",
                    "give a mass flow such as \"7 g/s\"",
                    Map.of());
        }
        double volumeFlow = scaled(parts, unit);
        return finite(text, volumeFlow * gas.at(pressure, temperature));
    }

    private static boolean isStandardSlang(String unit) {
        String lower = unit.toLowerCase(Locale.ROOT);
        return switch (lower) {
            case "scfm", "scfh", "scfs", "scf/min", "scf/h", "scf/s", "sccm", "slpm", "slm", "sl/min", "sl/s" -> true;
            case "nm3/h", "nm3/min", "nm3/s", "nl/min", "nlpm", "nl/h", "nl/s", "ncm3/min", "sm3/h", "std cm3/s" ->
                true;
            default -> false;
        };
    }

    private static String withoutSlang(String unit) {
        return switch (unit.toLowerCase(Locale.ROOT)) {
            case "scfm", "scf/min" -> "ft3/min at 60 degF";
            case "scfh", "scf/h" -> "ft3/h at 60 degF";
            case "scfs", "scf/s" -> "ft3/s at 60 degF";
            case "nm3/h", "sm3/h" -> "m3/h at 0 degC";
            case "nm3/min" -> "m3/min at 0 degC";
            case "nm3/s" -> "m3/s at 0 degC";
            case "sccm", "ncm3/min" -> "cm3/min at 0 degC";
            case "std cm3/s" -> "cm3/s at 0 degC";
            case "nl/h" -> "L/h at 0 degC";
            case "sl/s", "nl/s" -> "L/s at 0 degC";
            default -> "L/min at 0 degC";
        };
    }

    /** Typographic minus, thin and no-break spaces as plain ones. */
    private static String clean(String text) {
        int shown = 0;
        while (shown < text.length() && text.charAt(shown) >= ' ' && text.charAt(shown) <= '~') {
            shown++;
        }
        if (shown == text.length()) {
            return text.strip();
        }
        StringBuilder plain = new StringBuilder(text.length());
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '\u2212') {
                plain.append('-');
            } else if (c == '\u00a0' || c == '\u202f' || c == '\u2009' || Character.isWhitespace(c)) {
                plain.append(' ');
            } else {
                plain.append(c);
            }
        }
        return plain.toString().strip();
    }

    /** Where the number at the start of a text ends; 0 when there is none. */
    private static int numberEnd(String text) {
        int i = 0;
        int length = text.length();
        if (i < length && (text.charAt(i) == '+' || text.charAt(i) == '-')) {
            i++;
        }
        int digits = 0;
        while (i < length && digit(text.charAt(i))) {
            i++;
            digits++;
        }
        if (i < length && text.charAt(i) == '.') {
            i++;
            while (i < length && digit(text.charAt(i))) {
                i++;
                digits++;
            }
        }
        if (digits == 0) {
            return 0;
        }
        if (i < length && (text.charAt(i) == 'e' || text.charAt(i) == 'E')) {
            int exponent = i + 1;
            if (exponent < length && (text.charAt(exponent) == '+' || text.charAt(exponent) == '-')) {
                exponent++;
            }
            int first = exponent;
            while (exponent < length && digit(text.charAt(exponent))) {
                exponent++;
            }
            if (exponent > first) {
                i = exponent;
            }
        }
        return i;
    }

    private static boolean digit(char c) {
        return c >= '0' && c <= '9';
    }

    private static double finite(String text, double value) {
        if (!Double.isFinite(value)) {
            throw problem(Key.OUT_OF_RANGE, text, quoted(text) + " is too large a number", "", Map.of());
        }
        return value;
    }

    private static String quoted(String text) {
        return "\"" + text + "\"";
    }

    private static UnitException problem(
            Key key, String text, String message, String suggestion, Map<String, Object> values) {
        Map<String, Object> all = new LinkedHashMap<>();
        all.put("text", text);
        all.putAll(values);
        return new UnitException(key, message, suggestion, all);
    }

    /** Reads a product of units: {@code W/(m2 K)}, {@code kg/m^3}, {@code Pa s/kg}. After a slash one factor or one bracket. */
    private static final class UnitReader {
        private static final int DEEPEST = 4;
        private static final int MOST_FACTORS = 8;

        private final String text;
        private int at;
        private int factors;

        UnitReader(String text) {
            this.text = text;
        }

        /** The unit, or null when the text is none. */
        Entry read() {
            Entry whole = UnitTable.find(text);
            if (whole != null) {
                return whole;
            }
            Entry product = product(0);
            return product == null || at < text.length() ? null : product;
        }

        private Entry product(int depth) {
            if (depth > DEEPEST) {
                return null;
            }
            double numerator = 1;
            double denominator = 1;
            long exponents = 0;
            boolean any = false;
            boolean divide = false;
            while (true) {
                skipSpaces();
                if (at >= text.length() || text.charAt(at) == ')') {
                    break;
                }
                char c = text.charAt(at);
                if (c == '/') {
                    if (divide) {
                        return null;
                    }
                    divide = true;
                    at++;
                    continue;
                }
                if (c == '*' || c == '\u00b7' || c == '\u22c5') {
                    if (!any || divide) {
                        return null;
                    }
                    at++;
                    continue;
                }
                Entry factor = c == '(' ? bracket(depth) : factor();
                if (factor == null || ++factors > MOST_FACTORS) {
                    return null;
                }
                numerator *= divide ? factor.denominator() : factor.numerator();
                denominator *= divide ? factor.numerator() : factor.denominator();
                exponents += divide ? -factor.exponents() : factor.exponents();
                divide = false;
                any = true;
            }
            return any && !divide ? new Entry(numerator, denominator, exponents, Zero.PLAIN) : null;
        }

        private Entry bracket(int depth) {
            at++;
            Entry inside = product(depth + 1);
            if (inside == null || at >= text.length() || text.charAt(at) != ')') {
                return null;
            }
            at++;
            return raised(inside, power());
        }

        private Entry factor() {
            int start = at;
            while (at < text.length() && symbolCharacter(text.charAt(at))) {
                at++;
            }
            // Longest symbol first, so that "mmH2O" is not "mmH" squared with a tail.
            int end = at;
            Entry unit = UnitTable.find(text.substring(start, end));
            if (unit == null) {
                end = start;
                while (end < at && !digit(text.charAt(end)) && superscript(text.charAt(end)) == 0) {
                    end++;
                }
                unit = end > start ? UnitTable.find(text.substring(start, end)) : null;
            }
            if (unit == null) {
                return null;
            }
            at = end;
            boolean plainZero = unit.zero() == Zero.PLAIN
                    || unit.zero() == Zero.DIFFERENCE
                    || unit.zero() == Zero.CELSIUS
                    || unit.zero() == Zero.FAHRENHEIT;
            return plainZero ? raised(unit, power()) : null;
        }

        /** The exponent that follows: 2, ^2, ^-1, a superscript; 1 when nothing does; 0 when it makes no sense. */
        private int power() {
            if (at >= text.length()) {
                return 1;
            }
            int sup = superscript(text.charAt(at));
            if (sup != 0) {
                at++;
                return sup;
            }
            int i = at;
            boolean caret = text.charAt(i) == '^';
            if (caret) {
                i++;
            }
            boolean negative = i < text.length() && text.charAt(i) == '-';
            if (negative) {
                i++;
            }
            if (i < text.length() && digit(text.charAt(i))) {
                int value = text.charAt(i) - '0';
                at = i + 1;
                return value > 4 ? 0 : negative ? -value : value;
            }
            return caret || negative ? 0 : 1;
        }

        private static Entry raised(Entry unit, int power) {
            if (power == 0) {
                return null;
            }
            double numerator = 1;
            double denominator = 1;
            for (int i = 0; i < Math.abs(power); i++) {
                numerator *= power > 0 ? unit.numerator() : unit.denominator();
                denominator *= power > 0 ? unit.denominator() : unit.numerator();
            }
            return new Entry(numerator, denominator, power * unit.exponents(), Zero.PLAIN);
        }

        private void skipSpaces() {
            while (at < text.length() && text.charAt(at) == ' ') {
                at++;
            }
        }

        private static boolean symbolCharacter(char c) {
            return c != ' '
                    && c != '/'
                    && c != '('
                    && c != ')'
                    && c != '*'
                    && c != '^'
                    && c != '-'
                    && c != '\u00b7'
                    && c != '\u22c5';
        }

        private static int superscript(char c) {
            return c == '\u00b2' ? 2 : c == '\u00b3' ? 3 : 0;
        }
    }
}
