package purgewright.command;

import purgewright.fluids.Engines;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.coolprop.CoolPropEngine;

/** From the word typed to the property engine. */
final class EngineChoice {
    private EngineChoice() {}

    /** {@code auto} takes the external library where it is installed; the result names the engine either way. */
    static PropertyEngine of(SharedOptions.EngineName name) {
        return switch (name) {
            case embedded -> Engines.embedded();
            case coolprop -> CoolPropEngine.open();
            case auto -> {
                try {
                    yield CoolPropEngine.open();
                } catch (PropertyException e) {
                    if (e.key() == PropertyException.Key.LIBRARY_MISSING) {
                        yield Engines.embedded();
                    }
                    throw e;
                }
            }
        };
    }
}
