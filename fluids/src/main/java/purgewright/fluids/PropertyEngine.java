package purgewright.fluids;

import java.util.List;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;

/** Where fluids come from: the embedded equations, or the optional external library. Immutable; threads may share it. */
public interface PropertyEngine {
    /** Name and version, printed in every result: for instance "embedded 0.1.0". */
    String name();

    /** Names of the pure fluids, sorted; aliases ("LOX", "GHe", "kerosene") are accepted by {@link #pure} but not listed. */
    List<String> fluidNames();

    /**
     * The pure fluid of that name or alias, on the engine's reference state.
     *
     * @throws PropertyException {@code UNKNOWN_FLUID} with a suggestion
     */
    PureFluid pure(String name);

    /**
     * A mixer for a case's streams; enthalpies on the common formation datum (elements at 298.15 K and 1 bar have h = 0).
     *
     * @throws PropertyException when a definition cannot be met
     */
    StreamMixer mixer(List<StreamDefinition> streams);

    /**
     * What a user should know about the name used: for instance that n-dodecane stands in for kerosene. Empty when there is nothing to
     * say.
     */
    default String remark(String name) {
        return "";
    }
}
