package purgewright.hazard.deficiency;

/**
 * Oxygen in a well-mixed room into which inert gas is released at a steady rate. Volume flows at room conditions, m3/s; oxygen as a
 * volume fraction. Not for stratified gas: helium collects under the roof, cold nitrogen and argon on the floor, where the oxygen is
 * lower than these means.
 *
 * <pre>{@code
 * blown in  : C = C0/(Q+R) (Q + R exp(-(Q+R) t/V))
 * extracted : C = C0 (1 - (R/Q) (1 - exp(-Q t/V)))   for Q > R
 * none      : C = C0 exp(-R t/V)                     also for extraction with Q <= R
 * }</pre>
 *
 * <p>Source: form of the Fermilab FESHM chapter on oxygen deficiency hazards; closed solutions of the balance [derived].
 *
 * @param volume of the room, m3
 * @param ventilation fan's volume flow, m3/s; 0 for none
 * @param fan how the fan works
 * @param fresh oxygen fraction of fresh air, 0.209 or 0.21
 */
public record RoomOxygen(double volume, double ventilation, Fan fan, double fresh) {
    /** Oxygen below which air counts as deficient: 29 CFR 1910.146 [published]. */
    public static final double DEFICIENT = 0.195;

    /** Oxygen above which air counts as enriched: 29 CFR 1910.146 [published]. */
    public static final double ENRICHED = 0.235;

    /** Oxygen at 135 mmHg and 740 mmHg, rounded as the sources print it: Argonne Physics Division, cryogenic safety [published]. */
    public static final double DANGEROUS = 0.18;

    /** Partial pressure of oxygen below which a person lacks it, Pa: 135 mmHg, the same source [published]; a mmHg is 133.322 Pa. */
    private static final double DANGEROUS_PARTIAL = 135 * 133.322;

    /**
     * Oxygen fraction below which people lack oxygen at a room's pressure: 135 mmHg of it, and nowhere less than 18 %, so that a thin air
     * tells earlier and a dense one no later.
     *
     * @param pressure of the room, Pa, above 0
     */
    public static double dangerous(double pressure) {
        return Math.max(DANGEROUS, DANGEROUS_PARTIAL / pressure);
    }

    /** How the fan works. */
    public enum Fan {
        /** Air is blown in; the mixture leaves by openings. */
        BLOWN_IN,
        /** The mixture is drawn out; fresh air comes by openings. */
        EXTRACTED,
        /** No fan; what is displaced leaves. */
        NONE
    }

    /** Checks the room. */
    public RoomOxygen {
        if (!(volume > 0) || !(ventilation >= 0) || !(fresh > 0 && fresh < 1)) {
            throw new IllegalArgumentException("room volume " + volume + " m3 must be above 0, ventilation "
                    + ventilation + " m3/s at least 0, oxygen " + fresh + " between 0 and 1");
        }
    }

    /** Oxygen fraction at a time (s) after the release (m3/s) began in fresh air. */
    public double at(double time, double release) {
        double q = ventilation;
        double r = release;
        if (fan == Fan.BLOWN_IN && q + r > 0) {
            return fresh / (q + r) * (q + r * Math.exp(-(q + r) * time / volume));
        }
        if (fan == Fan.EXTRACTED && q > r) {
            return fresh * (1 + r / q * Math.expm1(-q * time / volume));
        }
        return fresh * Math.exp(-r * time / volume);
    }

    /** Oxygen fraction a time (s) after the room held {@code start}, with a release (m3/s): for one phase after another. */
    public double from(double start, double time, double release) {
        double q = ventilation;
        double r = release;
        double rate;
        double end;
        if (fan == Fan.BLOWN_IN) {
            rate = (q + r) / volume;
            end = q + r > 0 ? fresh * q / (q + r) : start;
        } else if (fan == Fan.EXTRACTED && q > r) {
            rate = q / volume;
            end = fresh * (1 - r / q);
        } else {
            rate = r / volume;
            end = 0;
        }
        return rate > 0 ? end + (start - end) * Math.exp(-rate * time) : start;
    }

    /**
     * What low oxygen does to a healthy person at rest at sea level, in words: EIGA Doc 44/18, table 1 [published, transcription]; empty
     * from 19.5 % on.
     *
     * @param oxygen volume fraction
     */
    public static String effect(double oxygen) {
        return switch (effectBand(oxygen)) {
            case 0 -> "";
            case 1 -> "19.5 to 10 % oxygen: faster breathing and pulse, impaired attention, thinking and coordination";
            case 2 -> "10 to 6 % oxygen: nausea, vomiting, lethargy, perhaps unconsciousness";
            default -> "below 6 % oxygen: convulsions, breathing stops, can be immediate";
        };
    }

    /** Row of that table: 0 normal, 1 below 19.5 %, 2 below 10 %, 3 below 6 %. */
    public static int effectBand(double oxygen) {
        return oxygen >= DEFICIENT ? 0 : oxygen >= 0.10 ? 1 : oxygen >= 0.06 ? 2 : 3;
    }

    /**
     * Fatality rate of releases, {@code phi = sum P_i F_i}, per hour: P the rate of an event, F its fatality factor. SSC Laboratory, oxygen
     * deficiency hazards, OSTI 45495 (1993), abstract [published].
     *
     * @param rates events per hour
     * @param oxygens fraction each event leaves, same order
     */
    public static double fatalityRate(double[] rates, double[] oxygens) {
        double phi = 0;
        for (int i = 0; i < rates.length; i++) {
            phi += rates[i] * fatalityFactor(oxygens[i]);
        }
        return phi;
    }

    /**
     * Class of a fatality rate (per hour): -1 unclassified below 1e-9, 4 above 1e-1 [published, SSC Laboratory 1993]; the classes between
     * them step by a hundred from 1e-7 on (Fermilab FESHM) [from memory].
     */
    public static int hazardClass(double rate) {
        if (!(rate >= 1e-9)) {
            return -1;
        }
        return rate < 1e-7 ? 0 : rate < 1e-5 ? 1 : rate < 1e-3 ? 2 : rate <= 1e-1 ? 3 : 4;
    }

    /** Oxygen fraction after a very long time. */
    public double last(double release) {
        if (release <= 0) {
            return fresh;
        }
        if (fan == Fan.BLOWN_IN) {
            return fresh * ventilation / (ventilation + release);
        }
        return fan == Fan.EXTRACTED && ventilation > release ? fresh * (1 - release / ventilation) : 0;
    }

    /** Time until the oxygen has fallen to a fraction, s; infinite when it never does. */
    public double timeTo(double oxygen, double release) {
        if (oxygen >= fresh) {
            return 0;
        }
        if (release <= 0 || oxygen <= last(release)) {
            return Double.POSITIVE_INFINITY;
        }
        double q = ventilation;
        double r = release;
        if (fan == Fan.BLOWN_IN) {
            double left = (oxygen * (q + r) / fresh - q) / r;
            return -volume / (q + r) * Math.log(left);
        }
        if (fan == Fan.EXTRACTED && q > r) {
            return -volume / q * Math.log1p(-(1 - oxygen / fresh) * q / r);
        }
        return -volume / r * Math.log(oxygen / fresh);
    }

    /** Oxygen after a volume of gas (m3 at room conditions) has come in at once, mixed while air leaves: {@code C0 exp(-v/V)}. */
    public double afterSudden(double released) {
        return fresh * Math.exp(-released / volume);
    }

    /**
     * Fatality factor: {@code F = 10^(6.5 - pO2/10)} with pO2 in mmHg at 740 mmHg; 0 from 18 % on, 1 from 8.8 % down. Fermilab FESHM
     * chapter on oxygen deficiency hazards [published, value recalled from memory].
     *
     * @param oxygen volume fraction
     */
    public static double fatalityFactor(double oxygen) {
        if (oxygen >= DANGEROUS) {
            return 0;
        }
        return oxygen <= 0.088 ? 1 : rawFatalityFactor(oxygen);
    }

    /** The same without the cut-offs. */
    static double rawFatalityFactor(double oxygen) {
        return Math.pow(10, 6.5 - oxygen * 740 / 10);
    }
}
