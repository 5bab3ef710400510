package purgewright.command;

import purgewright.fluids.Engines;
import purgewright.fluids.PropertyEngine;

/** From the word typed to the property engine. */
final class EngineChoice {
    private EngineChoice() {}

    static PropertyEngine of(SharedOptions.EngineName name) {
        return switch (name) {
            case embedded, auto -> Engines.embedded();
            case coolprop ->
                throw new InputProblem(
                        "NO_COOLPROP",
                        "this build has no link to the CoolProp library",
                        "leave --properties out to use the embedded equations");
        };
    }
}
