package purgewright.sealflow.campaign;

import java.util.ArrayList;
import java.util.List;
import purgewright.fluids.PureFluid;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.supply.Bottles;

/** The bottles of a case as banks that are switched one after the other. */
public final class Bank {
    private Bank() {}

    /**
     * One entry a bank. Bottles that do not divide evenly go to the first banks.
     *
     * @param gas real gas in them
     */
    public static List<Bottles> of(Supply.Bottles stated, PureFluid gas) {
        List<Bottles> out = new ArrayList<>();
        for (int b = 0; b < stated.banks(); b++) {
            int number = stated.number() / stated.banks() + (b < stated.number() % stated.banks() ? 1 : 0);
            double wall = orZero(stated.wallConductance()) * number;
            double capacity = stated.wallHeatCapacity();
            out.add(new Bottles(
                    gas,
                    stated.volume(),
                    number,
                    stated.fillingPressure(),
                    stated.temperature(),
                    wall,
                    Double.isNaN(capacity) ? Double.POSITIVE_INFINITY : capacity * number,
                    orZero(stated.outsideConductance()) * number));
        }
        return List.copyOf(out);
    }

    private static double orZero(double value) {
        return Double.isNaN(value) ? 0 : value;
    }
}
