package purgewright.fluids.unit;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The units known by symbol, their factors and exponents.
 *
 * <p>A unit is {@code numerator / denominator} SI units and an exponent for each base dimension. The exponents are packed in one
 * long (each worth a power of 64), so that a product of units adds them. Factors are kept as a fraction so that "0.08 mm" is the
 * double nearest to 0.00008 and not its neighbour.
 *
 * <p>Sources of the factors: exact by definition unless said (inch 25.4 mm, pound 0.45359237 kg, standard gravity 9.80665 m/s2,
 * standard atmosphere 101325 Pa: NIST Special Publication 811 (2008), appendix B.8). Conventional columns: mmHg 133.322387415 Pa
 * (13595.1 kg/m3 at standard gravity), inch of water 249.08891 Pa (1000 kg/m3). {@code ata} is the technical atmosphere, absolute
 * (98066.5 Pa). A test compares the table with a published unit library.
 */
final class UnitTable {
    static final long LENGTH = 1L;
    static final long MASS = 1L << 6;
    static final long TIME = 1L << 12;
    static final long KELVIN = 1L << 18;
    static final long ANGLE = 1L << 24;
    static final long MONEY = 1L << 30;

    /** How the zero of a unit lies. */
    enum Zero {
        PLAIN,
        /** A pressure named as absolute. */
        ABSOLUTE,
        /** A pressure above the surroundings. */
        GAUGE,
        /** A pressure difference by name. */
        DIFFERENCE,
        CELSIUS,
        FAHRENHEIT
    }

    /** One unit: value in SI is {@code value * numerator / denominator}. */
    record Entry(double numerator, double denominator, long exponents, Zero zero) {}

    private static final Map<String, Entry> PLAIN = new LinkedHashMap<>(256);
    private static final Map<String, Entry> PREFIXED = new HashMap<>(64);
    private static final Map<String, double[]> PREFIXES = new HashMap<>(32);
    /** What people write and we do not take: the word to the one that would be right. */
    private static final Map<String, String> WRONG = new HashMap<>(64);

    private static final double POUND = 0.45359237;
    private static final double GRAVITY = 9.80665;
    private static final double FOOT = 0.3048;
    private static final double INCH = 0.0254;
    private static final double POUND_FORCE = POUND * GRAVITY;
    private static final double PSI = POUND_FORCE / (INCH * INCH);
    private static final double BTU = 1055.05585262;

    static {
        long area = 2 * LENGTH;
        long volume = 3 * LENGTH;
        long force = MASS + LENGTH - 2 * TIME;
        long pressure = force - area;
        long energy = force + LENGTH;
        long power = energy - TIME;

        prefix("T", 1e12, 1);
        prefix("G", 1e9, 1);
        prefix("M", 1e6, 1);
        prefix("k", 1e3, 1);
        prefix("h", 1e2, 1);
        prefix("da", 1e1, 1);
        prefix("d", 1, 1e1);
        prefix("c", 1, 1e2);
        prefix("m", 1, 1e3);
        prefix("u", 1, 1e6);
        prefix("\u00b5", 1, 1e6);
        prefix("\u03bc", 1, 1e6);
        prefix("n", 1, 1e9);
        prefix("p", 1, 1e12);

        prefixed("m", 1, 1, LENGTH);
        plain("in", 254, 10000, LENGTH);
        plain("inch", 254, 10000, LENGTH);
        plain("ft", 3048, 10000, LENGTH);
        plain("yd", 9144, 10000, LENGTH);
        plain("mil", 254, 1e7, LENGTH);
        plain("thou", 254, 1e7, LENGTH);
        plain("micron", 1, 1e6, LENGTH);

        prefixed("L", 1, 1e3, volume);
        prefixed("l", 1, 1e3, volume);
        plain("cc", 1, 1e6, volume);
        plain("gal", 3785411784.0, 1e12, volume);

        prefixed("g", 1, 1e3, MASS);
        plain("t", 1e3, 1, MASS);
        plain("lb", POUND, 1, MASS);
        plain("lbm", POUND, 1, MASS);
        plain("oz", POUND, 16, MASS);
        plain("slug", POUND_FORCE, FOOT, MASS);

        prefixed("s", 1, 1, TIME);
        plain("min", 60, 1, TIME);
        plain("h", 3600, 1, TIME);
        plain("hr", 3600, 1, TIME);
        plain("d", 86400, 1, TIME);
        plain("day", 86400, 1, TIME);
        plain("days", 86400, 1, TIME);
        plain("week", 604800, 1, TIME);

        prefixed("K", 1, 1, KELVIN);
        plain("R", 5, 9, KELVIN);
        plain("degR", 5, 9, KELVIN);
        entry("degC", 1, 1, KELVIN, Zero.CELSIUS);
        entry("\u00b0C", 1, 1, KELVIN, Zero.CELSIUS);
        entry("\u2103", 1, 1, KELVIN, Zero.CELSIUS);
        entry("degF", 5, 9, KELVIN, Zero.FAHRENHEIT);
        entry("\u00b0F", 5, 9, KELVIN, Zero.FAHRENHEIT);
        entry("\u2109", 5, 9, KELVIN, Zero.FAHRENHEIT);

        prefixed("N", 1, 1, force);
        plain("lbf", POUND_FORCE, 1, force);
        plain("kgf", GRAVITY, 1, force);
        plain("dyn", 1, 1e5, force);

        prefixed("Pa", 1, 1, pressure);
        prefixed("bar", 1e5, 1, pressure);
        entry("bara", 1e5, 1, pressure, Zero.ABSOLUTE);
        entry("barg", 1e5, 1, pressure, Zero.GAUGE);
        plain("psi", PSI, 1, pressure);
        entry("psia", PSI, 1, pressure, Zero.ABSOLUTE);
        entry("psig", PSI, 1, pressure, Zero.GAUGE);
        entry("psid", PSI, 1, pressure, Zero.DIFFERENCE);
        plain("ksi", 1e3 * PSI, 1, pressure);
        plain("Mpsi", 1e6 * PSI, 1, pressure);
        plain("Msi", 1e6 * PSI, 1, pressure);
        plain("psf", POUND_FORCE, FOOT * FOOT, pressure);
        plain("atm", 101325, 1, pressure);
        entry("ata", 98066.5, 1, pressure, Zero.ABSOLUTE);
        plain("torr", 101325, 760, pressure);
        plain("Torr", 101325, 760, pressure);
        plain("mmHg", 133.322387415, 1, pressure);
        plain("inHg", 25.4 * 133.322387415, 1, pressure);
        plain("mmH2O", GRAVITY, 1, pressure);
        plain("inH2O", 25.4 * GRAVITY, 1, pressure);

        prefixed("J", 1, 1, energy);
        plain("Btu", BTU, 1, energy);
        plain("BTU", BTU, 1, energy);
        plain("Wh", 3600, 1, energy);
        plain("kWh", 3.6e6, 1, energy);
        prefixed("W", 1, 1, power);
        plain("hp", 550 * POUND_FORCE * FOOT, 1, power);

        prefixed("P", 1, 10, MASS - LENGTH - TIME);

        prefixed("rad", 1, 1, ANGLE);
        plain("deg", Math.PI, 180, ANGLE);
        plain("\u00b0", Math.PI, 180, ANGLE);
        plain("rev", 2 * Math.PI, 1, ANGLE);
        plain("rpm", Math.PI, 30, ANGLE - TIME);
        plain("rps", 2 * Math.PI, 1, ANGLE - TIME);
        prefixed("Hz", 1, 1, -TIME);

        plain("1", 1, 1, 0);
        plain("%", 1, 100, 0);
        plain("percent", 1, 100, 0);
        plain("ppm", 1, 1e6, 0);
        for (String code : List.of(
                "EUR", "USD", "GBP", "CHF", "JPY", "CNY", "INR", "KRW", "CAD", "AUD", "SEK", "NOK", "DKK", "PLN", "CZK",
                "BRL", "\u20ac", "$", "\u00a3")) {
            plain(code, 1, 1, MONEY);
        }

        wrong("degC", "C", "celsius", "Celsius", "centigrade", "deg C", "degc", "c");
        wrong("degF", "F", "fahrenheit", "Fahrenheit", "deg F", "degf", "f");
        wrong("K", "kelvin", "Kelvin", "degK", "\u00b0K", "k", "Kelvins", "kelvins");
        wrong("R", "Rankine", "rankine");
        wrong("in", "\"", "''", "inches", "Inch", "IN");
        wrong("ft", "'", "feet", "foot", "FT");
        wrong("mm", "millimeter", "millimetre", "millimeters", "millimetres");
        wrong("um", "microns", "micrometer", "micrometre", "my", "mu");
        wrong("m", "meter", "metre", "meters", "metres", "M");
        wrong("mil", "mils");
        wrong("s", "sec", "secs", "second", "seconds", "S");
        wrong("min", "minute", "minutes", "mins");
        wrong("h", "hour", "hours", "hrs", "H");
        wrong("bar", "bars", "Bar", "BAR");
        wrong("Pa", "pascal", "Pascal", "pascals");
        wrong("psi", "lbf/sqin", "PSI", "Psi", "lb/in2");
        wrong("atm", "atmosphere", "atmospheres");
        wrong("rpm", "1/min", "rev", "U/min", "RPM", "min-1", "revs/min", "r/min");
        wrong("kg", "kilogram", "kilograms", "Kg", "KG", "kilo");
        wrong("lb", "lbs", "pound", "pounds", "LB");
        wrong("L", "liter", "litre", "liters", "litres", "ltr");
        wrong("cm3", "ccm", "cm^3.");
        wrong("ft3", "cuft", "cf", "scf");
        wrong("N", "newton", "Newton", "newtons");
        wrong("W", "watt", "watts", "Watt");
        wrong("deg", "degrees", "degree");
    }

    private UnitTable() {}

    /** The unit of that symbol, or null. */
    static Entry find(String symbol) {
        Entry exact = PLAIN.get(symbol);
        if (exact != null) {
            return exact;
        }
        exact = PREFIXED.get(symbol);
        if (exact != null) {
            return exact;
        }
        for (int cut = 1; cut <= 2 && cut < symbol.length(); cut++) {
            double[] prefix = PREFIXES.get(symbol.substring(0, cut));
            Entry unit = prefix == null ? null : PREFIXED.get(symbol.substring(cut));
            if (unit != null) {
                return new Entry(unit.numerator * prefix[0], unit.denominator * prefix[1], unit.exponents, unit.zero);
            }
        }
        return null;
    }

    /** The right unit for a known slip, or null. */
    static String knownSlip(String symbol) {
        return WRONG.get(symbol);
    }

    /** Every symbol without prefixes. */
    static Collection<String> symbols() {
        List<String> all = new ArrayList<>(PLAIN.keySet());
        all.addAll(PREFIXED.keySet());
        return all;
    }

    private static void prefix(String symbol, double numerator, double denominator) {
        PREFIXES.put(symbol, new double[] {numerator, denominator});
    }

    private static void prefixed(String symbol, double numerator, double denominator, long exponents) {
        PREFIXED.put(symbol, new Entry(numerator, denominator, exponents, Zero.PLAIN));
    }

    private static void plain(String symbol, double numerator, double denominator, long exponents) {
        entry(symbol, numerator, denominator, exponents, Zero.PLAIN);
    }

    private static void entry(String symbol, double numerator, double denominator, long exponents, Zero zero) {
        PLAIN.put(symbol, new Entry(numerator, denominator, exponents, zero));
    }

    private static void wrong(String right, String... slips) {
        for (String slip : slips) {
            WRONG.put(slip, right);
        }
    }
}
