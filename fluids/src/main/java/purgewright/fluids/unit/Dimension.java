package purgewright.fluids.unit;

/** The dimensions that a case, a command or a report uses, each with its SI unit. */
public enum Dimension {
    NUMBER("1"),
    PRESSURE("Pa"),
    PRESSURE_DIFFERENCE("Pa"),
    TEMPERATURE("K"),
    TEMPERATURE_DIFFERENCE("K"),
    LENGTH("m"),
    AREA("m2"),
    VOLUME("m3"),
    ANGULAR_SPEED("rad/s"),
    SPEED("m/s"),
    MASS("kg"),
    /** Mass flow; a standard volume flow becomes mass with the gas it belongs to. */
    MASS_FLOW("kg/s"),
    VOLUME_FLOW("m3/s"),
    TIME("s"),
    FORCE("N"),
    STIFFNESS("N/m"),
    POWER("W"),
    CONDUCTANCE("W/K"),
    HEAT_TRANSFER_COEFFICIENT("W/(m2 K)"),
    DENSITY("kg/m3"),
    ENTHALPY("J/kg"),
    ENTROPY("J/(kg K)"),
    VISCOSITY("Pa s"),
    CONDUCTIVITY("W/(m K)"),
    MODULUS("Pa"),
    EXPANSION("1/K"),
    ANGLE("rad"),
    /** Flow resistance of a regulator's droop, Pa s/kg. */
    DROOP("Pa s/kg"),
    MONEY("1"),
    /** Rate of events or samples. */
    FREQUENCY("1/s"),
    /** Heat that warms a lump by a kelvin, for instance a bottle's wall. */
    HEAT_CAPACITY("J/K"),
    TORQUE("N m"),
    /** Price of gas by mass, in the case's currency. */
    MONEY_PER_MASS("1/kg"),
    /** Rent, in the case's currency. */
    MONEY_PER_TIME("1/s");

    private final String si;

    Dimension(String si) {
        this.si = si;
    }

    /** Symbol of the SI unit in which the kernel holds this dimension. */
    public String si() {
        return si;
    }

    /** What stands behind the SI unit in the symbol of a difference. */
    private static final String DIFFERENCE = " difference";

    /**
     * Symbol under which a value travels from where it is computed to where it is shown: the SI unit, and for a difference of
     * temperatures or of pressures (a stress too, which has no zero to be counted from) the word that it is one. The two are shown by
     * different rules: 167 K are -159 degF as a temperature and 301 degF as a rise; 1 MPa is 145 psia or 145 psi.
     */
    public String symbol() {
        return switch (this) {
            case TEMPERATURE_DIFFERENCE, PRESSURE_DIFFERENCE, MODULUS -> si + DIFFERENCE;
            default -> si;
        };
    }

    /** Symbol for a difference of two values with this symbol: an uncertainty, a rise, a change in a second. */
    public static String difference(String symbol) {
        return symbol.equals(TEMPERATURE.si) || symbol.equals(PRESSURE.si) ? symbol + DIFFERENCE : symbol;
    }

    /** The bare SI unit of a symbol, for files in which each field is named. */
    public static String si(String symbol) {
        return symbol.endsWith(DIFFERENCE) ? symbol.substring(0, symbol.length() - DIFFERENCE.length()) : symbol;
    }
}
