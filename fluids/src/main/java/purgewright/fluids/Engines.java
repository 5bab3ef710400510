package purgewright.fluids;

import java.util.List;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.fluids.mixture.Streams;

/** Where property engines come from. */
public final class Engines {
    private static final PropertyEngine EMBEDDED = new Embedded();

    private Engines() {}

    /** The engine of this library: published equations of state, no native code. One instance, shared. */
    public static PropertyEngine embedded() {
        return EMBEDDED;
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
