package purgewright.fluids.coolprop;

import com.sun.jna.Native;
import com.sun.jna.NativeLibrary;
import com.sun.jna.NativeLong;
import com.sun.jna.Platform;
import java.io.File;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PropertyException.Key;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.fluids.mixture.Streams;

/**
 * Properties from an installed CoolProp shared library, through its C interface.
 *
 * <p>The library is looked for where {@code PURGEWRIGHT_COOLPROP} points (the file, or the folder that holds it), then on the system's
 * library path. Threads may share an engine; every native state object is used by one thread at a time. {@link #close} frees all
 * native state objects; fluids of a closed engine answer no more.
 */
public final class CoolPropEngine implements PropertyEngine, AutoCloseable {
    /** Environment variable with the library's file or folder. */
    public static final String VARIABLE = "PURGEWRIGHT_COOLPROP";

    /** Oldest version whose interface has been read: what is older is refused. */
    static final String OLDEST = "6.4.0";

    /** Library names here and there. */
    private static final Map<String, String> NAMES = names();

    private final NativeStates states;
    private final String version;
    private final Map<String, CoolPropFluid> fluids = new ConcurrentHashMap<>();

    private CoolPropEngine(CoolPropLibrary library) {
        this.version = version(library);
        if (isOlder(version, OLDEST)) {
            throw missing("CoolProp " + version + " is too old, at least " + OLDEST + " is needed", null);
        }
        this.states = new NativeStates(library);
    }

    /**
     * Opens the installed library.
     *
     * @throws PropertyException {@code LIBRARY_MISSING} when there is none, it lacks a function, or is too old
     */
    public static CoolPropEngine open() {
        String place = System.getenv(VARIABLE);
        return place == null || place.isBlank() ? openNamed("CoolProp") : open(new File(place));
    }

    /** Opens the library in a file or folder. */
    static CoolPropEngine open(File place) {
        if (!place.exists()) {
            throw missing(VARIABLE + " points to " + place + ", which does not exist", null);
        }
        File file = place.isDirectory() ? new File(place, System.mapLibraryName("CoolProp")) : place;
        if (!file.isFile()) {
            throw missing("there is no " + file.getName() + " in " + place, null);
        }
        return openNamed(file.getAbsolutePath());
    }

    private static CoolPropEngine openNamed(String name) {
        CoolPropLibrary library;
        try {
            library = Native.load(name, CoolPropLibrary.class);
            NativeLibrary symbols = NativeLibrary.getInstance(name);
            for (String function : List.of(
                    "get_global_param_string",
                    "get_param_index",
                    "get_input_pair_index",
                    "AbstractState_factory",
                    "AbstractState_free",
                    "AbstractState_update",
                    "AbstractState_keyed_output")) {
                symbols.getFunction(function);
            }
        } catch (UnsatisfiedLinkError e) {
            throw missing("the CoolProp library could not be loaded", e);
        }
        return new CoolPropEngine(library);
    }

    private static PropertyException missing(String what, Throwable cause) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("library", System.mapLibraryName("CoolProp"));
        values.put("what", what);
        if (cause != null) {
            String reason = String.valueOf(cause.getMessage());
            int end = reason.indexOf('\n');
            values.put("reason", end < 0 ? reason : reason.substring(0, end));
        }
        values.put(
                "help",
                "set " + VARIABLE + " to the shared library's file or folder"
                        + (Platform.isWindows() ? ", or put its folder on PATH" : "")
                        + "; binaries and build steps: https://www.coolprop.org (shared library wrapper)");
        PropertyException problem = new PropertyException(Key.LIBRARY_MISSING, values);
        if (cause != null) {
            problem.initCause(cause);
        }
        return problem;
    }

    private static String version(CoolPropLibrary library) {
        byte[] buffer = new byte[256];
        NativeLong done = library.get_global_param_string("version", buffer, buffer.length);
        return done.longValue() == 1 ? Native.toString(buffer, StandardCharsets.US_ASCII.name()) : "0";
    }

    /** Compares the leading numbers of two versions. */
    static boolean isOlder(String version, String than) {
        String[] a = version.split("[^0-9]+", -1);
        String[] b = than.split("[^0-9]+", -1);
        for (int i = 0; i < 3; i++) {
            int x = i < a.length && !a[i].isEmpty() ? Integer.parseInt(a[i]) : 0;
            int y = i < b.length && !b[i].isEmpty() ? Integer.parseInt(b[i]) : 0;
            if (x != y) {
                return x < y;
            }
        }
        return false;
    }

    private static Map<String, String> names() {
        Map<String, String> names = new LinkedHashMap<>();
        names.put("ammonia", "Ammonia");
        names.put("argon", "Argon");
        names.put("carbon dioxide", "CarbonDioxide");
        names.put("carbon monoxide", "CarbonMonoxide");
        names.put("ethanol", "Ethanol");
        names.put("helium", "Helium");
        names.put("hydrogen", "Hydrogen");
        names.put("methane", "Methane");
        names.put("n-dodecane", "n-Dodecane");
        names.put("neon", "Neon");
        names.put("nitrogen", "Nitrogen");
        names.put("oxygen", "Oxygen");
        names.put("parahydrogen", "ParaHydrogen");
        names.put("propane", "n-Propane");
        names.put("water", "Water");
        return names;
    }

    private static String key(String name) {
        return name.strip()
                .toLowerCase(Locale.ROOT)
                .replace("-", "")
                .replace(" ", "")
                .replace("_", "");
    }

    /** Other names people use, by key. */
    private static final Map<String, String> ALIASES = Map.ofEntries(
            Map.entry("he", "helium"),
            Map.entry("ghe", "helium"),
            Map.entry("n2", "nitrogen"),
            Map.entry("gn2", "nitrogen"),
            Map.entry("ln2", "nitrogen"),
            Map.entry("o2", "oxygen"),
            Map.entry("lox", "oxygen"),
            Map.entry("gox", "oxygen"),
            Map.entry("h2", "hydrogen"),
            Map.entry("gh2", "hydrogen"),
            Map.entry("lh2", "parahydrogen"),
            Map.entry("ch4", "methane"),
            Map.entry("lch4", "methane"),
            Map.entry("lng", "methane"),
            Map.entry("ar", "argon"),
            Map.entry("h2o", "water"),
            Map.entry("co2", "carbon dioxide"),
            Map.entry("co", "carbon monoxide"),
            Map.entry("kerosene", "n-dodecane"),
            Map.entry("dodecane", "n-dodecane"),
            Map.entry("nh3", "ammonia"),
            Map.entry("c3h8", "propane"),
            Map.entry("ne", "neon"));

    @Override
    public String name() {
        return "CoolProp " + version;
    }

    @Override
    public List<String> fluidNames() {
        List<String> list = new ArrayList<>(NAMES.keySet());
        Collections.sort(list);
        return list;
    }

    @Override
    public PureFluid pure(String name) {
        String wanted = ALIASES.getOrDefault(key(name), name);
        for (Map.Entry<String, String> entry : NAMES.entrySet()) {
            if (key(entry.getKey()).equals(key(wanted))) {
                return fluids.computeIfAbsent(
                        entry.getKey(), known -> new CoolPropFluid(states, known, entry.getValue(), name()));
            }
        }
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("name", name);
        values.put("suggestion", "");
        throw new PropertyException(Key.UNKNOWN_FLUID, values);
    }

    @Override
    public StreamMixer mixer(List<StreamDefinition> streams) {
        return Streams.mixer(this, streams);
    }

    /** Native state objects that are alive; 0 after {@link #close}. */
    int handles() {
        return states.alive();
    }

    @Override
    public void close() {
        states.close();
    }
}
