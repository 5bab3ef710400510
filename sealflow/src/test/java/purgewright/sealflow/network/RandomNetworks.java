package purgewright.sealflow.network;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import purgewright.sealflow.model.Case;

/** Random networks of perfect gases and closed-form passages. */
final class RandomNetworks {
    private static final String[] GASES = {"helium", "oxygen", "nitrogen", "air"};

    private RandomNetworks() {}

    /** Two to thirty cavities; areas over six decades, pressures 1 kPa to 60 MPa, diffusion in half of the passages. */
    static Case draw(long seed) {
        return draw(seed, 0, 1);
    }

    /**
     * @param shuffle 0 for the drawn order of cavities and passages, else the seed of another order
     * @param factor on the first boundary's pressure
     */
    static Case draw(long seed, long shuffle, double factor) {
        Random r = new Random(seed);
        int free = 2 + r.nextInt(29);
        int bounds = 2 + r.nextInt(3);
        CaseSketch sketch = new CaseSketch();
        for (String gas : GASES) {
            sketch.stream(gas, gas);
        }
        List<Runnable> cavities = new ArrayList<>();
        List<String> names = new ArrayList<>();
        for (int b = 0; b < bounds; b++) {
            String name = "bound " + b;
            String gas = GASES[r.nextInt(GASES.length)];
            double p = Math.pow(10, 3 + 4.78 * r.nextDouble()) * (b == 0 ? factor : 1);
            double t = 80 + 900 * r.nextDouble();
            names.add(name);
            cavities.add(() -> sketch.fixed(name, gas, p, t));
        }
        for (int i = 0; i < free; i++) {
            String name = "cavity " + i;
            names.add(name);
            cavities.add(() -> sketch.free(name));
        }
        List<Runnable> passages = new ArrayList<>();
        int[] number = {0};
        // A tree first, so that nothing is isolated, then loops.
        for (int i = bounds; i < names.size(); i++) {
            link(sketch, passages, names.get(r.nextInt(i)), names.get(i), r, number);
        }
        int more = bounds + r.nextInt(free + 2);
        for (int i = 0; i < more; i++) {
            int a = r.nextInt(names.size());
            int b = r.nextInt(names.size());
            if (a != b) {
                link(sketch, passages, names.get(a), names.get(b), r, number);
            }
        }
        if (shuffle != 0) {
            Collections.shuffle(cavities, new Random(shuffle));
            Collections.shuffle(passages, new Random(shuffle + 1));
        }
        cavities.forEach(Runnable::run);
        passages.forEach(Runnable::run);
        return sketch.make();
    }

    private static void link(CaseSketch sketch, List<Runnable> passages, String a, String b, Random r, int[] number) {
        String name = "passage " + number[0]++;
        boolean nozzle = r.nextInt(3) > 0;
        double size = Math.pow(10, -9 + 6 * r.nextDouble());
        double area = r.nextBoolean() ? size : 0.0;
        passages.add(() -> sketch.passage(
                name,
                a,
                b,
                nozzle ? "nozzle" : "square law",
                "area",
                size,
                "K",
                size * 1e-9,
                "diffusion area",
                area,
                "diffusion length",
                0.005));
    }
}
