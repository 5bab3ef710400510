package purgewright.sealflow.network;

import java.util.ArrayDeque;
import java.util.Deque;

/**
 * Parts of a network that one passage alone ties to all given pressures, and what heat is made in them.
 *
 * <p>In a steady state no stream crosses such a passage in sum. With F_k = 0 for every stream nothing diffuses there either: were the bulk
 * flow B positive, d_k = -B x_up,k M_k for each, so that x_down,k = x_up,k (1 + B/G_k), and these do not add up to one. So no energy crosses
 * it, and what lies between such passages must balance its own heat:
 *
 * <pre>{@code windage + shares of its passages' heat + heat through walls = 0}</pre>
 *
 * <p>Without a wall that is no state of any fluid once a rotor drags at it: drag is positive in every fluid.
 */
final class DeadParts {
    private final Network net;
    /** True for a passage whose one end has no other way to a given pressure. */
    private final boolean[] alone;

    private final boolean[] dead;
    private final int[][] linksAt;

    DeadParts(Network net) {
        this.net = net;
        linksAt = net.linksAt();
        alone = new boolean[net.links];
        dead = new boolean[net.cavities];
        for (int l = 0; l < net.links; l++) {
            if (!net.flowing[l]) {
                continue;
            }
            boolean[] reached = fed(l);
            alone[l] = !reached[net.from[l]] || !reached[net.to[l]];
            for (int i : net.cavityOf) {
                dead[i] |= !reached[i];
            }
        }
    }

    /** Cavities that a given pressure reaches without one link. */
    private boolean[] fed(int without) {
        boolean[] reached = net.fixed.clone();
        Deque<Integer> queue = new ArrayDeque<>();
        for (int i = 0; i < net.cavities; i++) {
            if (net.fixed[i]) {
                queue.add(i);
            }
        }
        while (!queue.isEmpty()) {
            int i = queue.poll();
            for (int l : linksAt[i]) {
                if (net.flowing[l] && l != without) {
                    visit(l, i, reached, queue);
                }
            }
        }
        return reached;
    }

    private void visit(int l, int i, boolean[] reached, Deque<Integer> queue) {
        int other = net.from[l] == i ? net.to[l] : net.from[l];
        if (!reached[other]) {
            reached[other] = true;
            queue.add(other);
        }
    }

    /**
     * A part whose heat has no way out in any state.
     *
     * @param cavity the one most of the heat goes into
     * @param passage the one that drags most at it; -1 where all of it is windage
     * @param heat W, of the whole part, at the states of the iterate
     */
    record Heated(int cavity, int passage, double heat) {}

    /**
     * The hottest of these parts, judged by an iterate of which at least the passages are known; null where there is none, or none with more
     * heat than {@code least}, which might pass for balanced.
     */
    Heated heated(Iterate x, double least) {
        Heated most = null;
        boolean[] done = new boolean[net.cavities];
        for (int i : net.cavityOf) {
            if (dead[i] && !done[i]) {
                Heated part = part(i, x, done);
                if (part != null && part.heat > least && (most == null || part.heat > most.heat)) {
                    most = part;
                }
            }
        }
        return most;
    }

    /** The part that a cavity belongs to; null where a wall may take its heat. */
    private Heated part(int first, Iterate x, boolean[] done) {
        boolean[] mine = new boolean[net.cavities];
        mine[first] = true;
        Deque<Integer> queue = new ArrayDeque<>();
        queue.add(first);
        while (!queue.isEmpty()) {
            int i = queue.poll();
            done[i] = true;
            for (int l : linksAt[i]) {
                if (net.flowing[l] && !alone[l]) {
                    visit(l, i, mine, queue);
                }
            }
        }
        for (int w = 0; w < net.wallAt.length; w++) {
            if (mine[net.wallAt[w]] || (net.wallOther[w] >= 0 && mine[net.wallOther[w]])) {
                return null;
            }
        }
        double[] heat = new double[net.cavities];
        int passage = -1;
        double drag = 0;
        for (int l = 0; l < net.links; l++) {
            if (!net.flowing[l] || x.flow[l] == null) {
                continue;
            }
            // Half of what is dragged at rest goes to either end, whatever the shares are in this iterate.
            double half = x.flow[l].heat() / 2;
            heat[net.from[l]] += half;
            heat[net.to[l]] += half;
            if ((mine[net.from[l]] || mine[net.to[l]]) && half > drag) {
                drag = half;
                passage = l;
            }
        }
        double sum = 0;
        int hottest = first;
        for (int i = 0; i < net.cavities; i++) {
            if (mine[i]) {
                heat[i] += x.windage[i];
                sum += heat[i];
                hottest = heat[i] > heat[hottest] ? i : hottest;
            }
        }
        return new Heated(hottest, passage, sum);
    }
}
