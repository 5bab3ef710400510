package purgewright.fluids;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import purgewright.fluids.coolprop.CoolPropEngine;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.fluids.mixture.Streams;
import purgewright.fluids.phase.EmbeddedFluid;
import purgewright.fluids.phase.TableStore;
import purgewright.fluids.phase.TabulatedFluid;

/** Where property engines come from. */
public final class Engines {
    private static final PropertyEngine EMBEDDED = new Embedded();

    private Engines() {}

    /** The engine of this library: published equations of state, no native code. One instance, shared. */
    public static PropertyEngine embedded() {
        return EMBEDDED;
    }

    /**
     * The installed CoolProp library, opened anew at each call.
     *
     * @throws PropertyException {@code LIBRARY_MISSING} when there is none or it is too old
     */
    public static PropertyEngine coolprop() {
        return CoolPropEngine.open();
    }

    /** The installed CoolProp library where there is one, else the embedded engine. */
    public static PropertyEngine auto() {
        try {
            return coolprop();
        } catch (PropertyException e) {
            if (e.key() == PropertyException.Key.LIBRARY_MISSING) {
                return EMBEDDED;
            }
            throw e;
        }
    }

    /**
     * The same equations through property tables, for solvers: states by (p, h) and (p, s) within the tables' range (1 kPa to 100 MPa, the
     * published temperatures) come from splines with a relative error of about 1e-6 away from the critical point; everything else from
     * the equations. A fluid's table is built, or read from the cache, when the fluid is first asked for.
     *
     * @param store where tables are kept
     */
    public static PropertyEngine tabulated(TableStore store) {
        return new Tabulated(store);
    }

    private static final class Tabulated implements PropertyEngine {
        private final TableStore store;
        private final Map<String, PureFluid> fluids = new ConcurrentHashMap<>();

        Tabulated(TableStore store) {
            this.store = store;
        }

        @Override
        public String name() {
            return EMBEDDED.name() + " with tables";
        }

        @Override
        public List<String> fluidNames() {
            return EMBEDDED.fluidNames();
        }

        @Override
        public PureFluid pure(String name) {
            EmbeddedFluid exact = FluidLibrary.fluid(name);
            return fluids.computeIfAbsent(exact.name(), key -> store.table(exact, TabulatedFluid.Range.of(exact)));
        }

        @Override
        public String remark(String name) {
            return EMBEDDED.remark(name);
        }

        @Override
        public StreamMixer mixer(List<StreamDefinition> streams) {
            return Streams.mixer(this, streams);
        }
    }

    private static final class Embedded implements PropertyEngine {
        @Override
        public String name() {
            String version = Engines.class.getPackage().getImplementationVersion();
            return version == null ? "embedded" : "embedded " + version;
        }

        @Override
        public List<String> fluidNames() {
            return FluidLibrary.names();
        }

        @Override
        public PureFluid pure(String name) {
            return FluidLibrary.fluid(name);
        }

        @Override
        public String remark(String name) {
            return FluidLibrary.remark(name);
        }

        @Override
        public StreamMixer mixer(List<StreamDefinition> streams) {
            return Streams.mixer(this, streams);
        }
    }
}
