package purgewright.figure;

import java.awt.geom.Rectangle2D;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/**
 * Where everything of a barrier section stands. It follows from names, roles, types and who is joined to whom alone, so that a
 * changed number never makes the drawing jump; radii move a seal within its own place only.
 *
 * <p>Chambers are the cavities that a shaft seal touches. They stand along the axis in the order of their distance from the pumped
 * end to the hot end. A second way from one end to the other (a shared rotor sealed at its rim and at its hub) is a second lane,
 * mirrored about the disc. Everything else hangs on pipes outside the casing.
 */
final class SectionLayout {
    /** Types that cannot do without a radius on the shaft. */
    static final Set<String> SHAFT_TYPES = PassageTypes.all().stream()
            .filter(t -> t.kind() != PassageType.SealKind.DUCT
                    && t.fields().stream()
                            .anyMatch(f -> f.required()
                                    && (f.name().equals("radius") || f.name().equals("inner radius"))))
            .map(PassageType::key)
            .collect(Collectors.toUnmodifiableSet());

    static final double CHAMBER = 134;
    static final double GAP = 104;
    static final double LANE = 134;
    static final double CHIP_WIDTH = 128;
    static final double COLUMN = 138;
    static final double CHIP = 42;
    static final double DUCT = 52;
    static final double CHANNEL = 22;
    static final double MARGIN = 46;

    /** A row of chambers and seals. {@code up} tells whether outward is towards the top of the page. */
    static final class Lane {
        final List<String> inner;
        String left;
        String right;
        final List<String> before = new ArrayList<>();
        final List<String> after = new ArrayList<>();
        boolean up = true;
        /** Height of the rotor's surface. */
        double surface;

        double radius;

        Lane(List<String> inner, String left, String right) {
            this.inner = inner;
            this.left = left;
            this.right = right;
        }

        /** y at a distance outward from the rotor's surface. */
        double y(double outward) {
            return up ? surface - outward : surface + outward;
        }

        List<String> all() {
            List<String> all = new ArrayList<>(before);
            if (left != null) {
                all.add(left);
            }
            all.addAll(inner);
            if (right != null) {
                all.add(right);
            }
            all.addAll(after);
            return all;
        }
    }

    /** A cavity drawn as a chamber along the shaft. */
    static final class Chamber {
        final Cavity cavity;
        double x;
        double width;
        /** Lanes the chamber stands in. */
        final List<Lane> lanes = new ArrayList<>();

        Chamber(Cavity cavity) {
            this.cavity = cavity;
        }

        double right() {
            return x + width;
        }

        double centre() {
            return x + width / 2;
        }
    }

    /** A seal between two chambers of a lane. */
    record Gap(PassageSpec seal, Lane lane, Chamber left, Chamber right) {
        double x() {
            return left.right();
        }

        double width() {
            return right.x - left.right();
        }
    }

    /** A cavity off the shaft. A ghost repeats one that stands elsewhere. */
    record Chip(Cavity cavity, Rectangle2D box, boolean ghost) {}

    /** A pipe: from (x1, y1) at the nearer end by way of x2 to (x2, y2) at the further end; {@code inner} is the nearer cavity's name. */
    record Duct(PassageSpec passage, String inner, double x1, double y1, double x2, double y2, boolean up) {}

    private static final class Branch {
        final PassageSpec passage;
        final Cavity cavity;
        final boolean ghost;
        final List<Branch> children = new ArrayList<>();

        Branch(PassageSpec passage, Cavity cavity, boolean ghost) {
            this.passage = passage;
            this.cavity = cavity;
            this.ghost = ghost;
        }

        double width() {
            return Math.max(COLUMN, children.stream().mapToDouble(Branch::width).sum());
        }

        int depth() {
            return 1 + children.stream().mapToInt(Branch::depth).max().orElse(0);
        }
    }

    final Case model;
    final Map<String, Chamber> chambers = new LinkedHashMap<>();
    final List<Lane> lanes = new ArrayList<>();
    final List<Gap> gaps = new ArrayList<>();
    final List<Chip> chips = new ArrayList<>();
    final List<Duct> ducts = new ArrayList<>();
    /** True when a disc stands between two lanes. */
    boolean disc;

    double width;
    double top;
    double height;

    private final Map<String, List<Branch>> forests = new HashMap<>();
    private final List<PassageSpec> seals = new ArrayList<>();
    private final Map<String, List<String>> joined = new HashMap<>();

    SectionLayout(Case model, double top, double targetWidth) {
        this.model = model;
        this.top = top;
        for (PassageSpec passage : model.passages()) {
            boolean shaft =
                    SHAFT_TYPES.contains(passage.type()) || (passage.type().equals("measured") && passage.radius() > 0);
            if (shaft && model.cavity(passage.from()) != null && model.cavity(passage.to()) != null) {
                seals.add(passage);
                chamber(passage.from());
                chamber(passage.to());
                join(passage.from(), passage.to());
            }
        }
        if (chambers.isEmpty()) {
            model.cavities().stream()
                    .filter(c -> c.role() != Role.SUPPLY && c.role() != Role.VENT)
                    .findFirst()
                    .or(() -> model.cavities().stream().findFirst())
                    .ifPresent(c -> chamber(c.name()));
        }
        findLanes();
        growForests();
        place(targetWidth);
    }

    private void chamber(String name) {
        chambers.computeIfAbsent(name, n -> new Chamber(model.cavity(n)));
    }

    // ---- who stands where along the axis

    private List<String> neighbours(String name) {
        return joined.getOrDefault(name, List.of());
    }

    private void join(String a, String b) {
        joined.computeIfAbsent(a, k -> new ArrayList<>()).add(b);
        joined.computeIfAbsent(b, k -> new ArrayList<>()).add(a);
    }

    /** Steps from a chamber to every other one of its component. */
    private Map<String, Integer> distances(String from) {
        Map<String, Integer> steps = new HashMap<>();
        steps.put(from, 0);
        Deque<String> queue = new ArrayDeque<>(List.of(from));
        while (!queue.isEmpty()) {
            String at = queue.remove();
            for (String next : neighbours(at)) {
                if (steps.putIfAbsent(next, steps.get(at) + 1) == null) {
                    queue.add(next);
                }
            }
        }
        return steps;
    }

    private void findLanes() {
        Set<String> left = new LinkedHashSet<>(chambers.keySet());
        while (!left.isEmpty()) {
            Set<String> component = reach(left.iterator().next(), left);
            left.removeAll(component);
            lanesOf(component);
        }
    }

    private Set<String> reach(String start, Set<String> within) {
        Set<String> seen = new LinkedHashSet<>(List.of(start));
        Deque<String> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty()) {
            for (String next : neighbours(queue.remove())) {
                if (within.contains(next) && seen.add(next)) {
                    queue.add(next);
                }
            }
        }
        return seen;
    }

    private List<String> shortest(String from, String to, Set<String> within) {
        Map<String, String> came = new HashMap<>();
        came.put(from, from);
        Deque<String> queue = new ArrayDeque<>(List.of(from));
        while (!queue.isEmpty()) {
            String at = queue.remove();
            if (at.equals(to)) {
                List<String> path = new ArrayList<>();
                for (String n = to; !n.equals(from); n = came.get(n)) {
                    path.add(n);
                }
                path.add(from);
                Collections.reverse(path);
                return path;
            }
            for (String next : neighbours(at)) {
                if (within.contains(next) && came.putIfAbsent(next, at) == null) {
                    queue.add(next);
                }
            }
        }
        return List.of();
    }

    private static int leftness(Role role) {
        return switch (role) {
            case OXIDIZER -> 0;
            case FUEL -> 1;
            case BEARING -> 3;
            case HOT_GAS -> 9;
            default -> 5;
        };
    }

    private void lanesOf(Set<String> component) {
        String from = null;
        String to = null;
        int best = Integer.MIN_VALUE;
        // Looked up once, not for each of the pairs: there are ninety thousand of 300 cavities.
        Map<String, Integer> left = new HashMap<>();
        Map<String, Integer> end = new HashMap<>();
        for (Cavity c : model.cavities()) {
            if (component.contains(c.name())) {
                left.put(c.name(), leftness(c.role()));
                end.put(c.name(), neighbours(c.name()).size() == 1 ? 1 : 0);
            }
        }
        int most = Collections.max(left.values());
        for (String a : component) {
            int leftOfA = left.get(a);
            int endOfA = end.get(a);
            if ((most - leftOfA) * 1000 + 2 * component.size() + 2 <= best) {
                continue; // no way from here can score higher
            }
            Map<String, Integer> steps = distances(a);
            for (String b : component) {
                int contrast = left.get(b) - leftOfA;
                int ends = endOfA + end.get(b);
                int score = contrast * 1000 + (steps.get(b) + 1) * 2 + ends;
                if (!a.equals(b) && contrast >= 0 && score > best) {
                    best = score;
                    from = a;
                    to = b;
                }
            }
        }
        if (from == null) {
            String only = component.iterator().next();
            Lane lane = new Lane(List.of(), only, null);
            addLane(lane);
            return;
        }
        List<String> path = shortest(from, to, component);
        Lane first = new Lane(new ArrayList<>(path.subList(1, path.size() - 1)), from, to);
        int firstIndex = lanes.size();
        addLane(first);
        Set<String> placed = new LinkedHashSet<>(path);
        Set<String> rest = new LinkedHashSet<>(component);
        rest.removeAll(placed);
        while (!rest.isEmpty()) {
            Set<String> part = reach(rest.iterator().next(), rest);
            List<String> attach = new ArrayList<>();
            for (String p : first.all()) {
                if (neighbours(p).stream().anyMatch(part::contains)) {
                    attach.add(p);
                }
            }
            for (String p : placed) {
                if (!attach.contains(p) && neighbours(p).stream().anyMatch(part::contains)) {
                    attach.add(p);
                }
            }
            if (attach.size() >= 2) {
                String a = attach.get(0);
                String b = attach.get(attach.size() - 1);
                Set<String> within = new HashSet<>(part);
                within.add(a);
                within.add(b);
                List<String> way = through(a, b, part);
                narrow(first, a, b);
                addLane(new Lane(new ArrayList<>(way), a, b));
                placed.addAll(way);
                way.forEach(rest::remove);
            } else {
                String a = attach.get(0);
                List<String> tail = longestTail(a, part);
                List<String> all = first.all();
                if (a.equals(all.get(0))) {
                    Collections.reverse(tail);
                    first.before.addAll(0, tail);
                } else if (a.equals(all.get(all.size() - 1))) {
                    first.after.addAll(tail);
                } else {
                    addLane(new Lane(tail, a, null));
                }
                placed.addAll(tail);
                tail.forEach(rest::remove);
            }
        }
        join(firstIndex, component);
    }

    /** A second way that leaves the first at two of its inner chambers makes these the ends, and what lies beyond them tails. */
    private void narrow(Lane lane, String a, String b) {
        List<String> all = lane.all();
        int i = all.indexOf(a);
        int k = all.indexOf(b);
        boolean second = lanes.size() > 1 && lanes.indexOf(lane) < lanes.size() - 1;
        if (i < 0 || k <= i + 1 || second) {
            return;
        }
        List<String> before = new ArrayList<>(all.subList(0, i));
        List<String> middle = new ArrayList<>(all.subList(i + 1, k));
        List<String> after = new ArrayList<>(all.subList(k + 1, all.size()));
        lane.left = a;
        lane.right = b;
        lane.before.clear();
        lane.before.addAll(before);
        lane.after.clear();
        lane.after.addAll(after);
        lane.inner.clear();
        lane.inner.addAll(middle);
    }

    private void addLane(Lane lane) {
        lanes.add(lane);
    }

    /** Shortest way from a to b whose inside lies in the part. */
    private List<String> through(String a, String b, Set<String> part) {
        List<String> bestWay = null;
        for (String start : neighbours(a)) {
            if (part.contains(start)) {
                for (String end : neighbours(b)) {
                    if (part.contains(end)) {
                        List<String> way = shortest(start, end, part);
                        if (!way.isEmpty() && (bestWay == null || way.size() < bestWay.size())) {
                            bestWay = way;
                        }
                    }
                }
            }
        }
        return bestWay == null ? List.of(part.iterator().next()) : bestWay;
    }

    private List<String> longestTail(String from, Set<String> part) {
        List<String> best = List.of();
        Set<String> within = new HashSet<>(part);
        within.add(from);
        for (String end : part) {
            List<String> path = shortest(from, end, within);
            if (path.size() > best.size()) {
                best = path;
            }
        }
        return new ArrayList<>(best.subList(1, best.size()));
    }

    /** Gives each seal its place; a seal that no lane shows side by side gets a lane of its own. */
    private void join(int firstIndex, Set<String> component) {
        Set<String> shown = new HashSet<>();
        Set<String> taken = new HashSet<>();
        List<Lane> bypasses = new ArrayList<>();
        for (PassageSpec seal : seals) {
            if (!component.contains(seal.from()) || shown.contains(seal.name())) {
                continue;
            }
            boolean found = false;
            for (int i = firstIndex; i < lanes.size() && !found; i++) {
                List<String> all = lanes.get(i).all();
                for (int k = 0; k + 1 < all.size() && !found; k++) {
                    String a = all.get(k);
                    String b = all.get(k + 1);
                    boolean joins = (seal.from().equals(a) && seal.to().equals(b))
                            || (seal.from().equals(b) && seal.to().equals(a));
                    if (joins && taken.add(i + ":" + k)) {
                        gaps.add(new Gap(seal, lanes.get(i), chambers.get(a), chambers.get(b)));
                        shown.add(seal.name());
                        found = true;
                    }
                }
            }
            if (!found) {
                List<String> order = lanes.get(firstIndex).all();
                boolean forward = order.indexOf(seal.from()) <= order.indexOf(seal.to());
                Lane lane = new Lane(List.of(), forward ? seal.from() : seal.to(), forward ? seal.to() : seal.from());
                bypasses.add(lane);
                gaps.add(new Gap(seal, lane, chambers.get(lane.left), chambers.get(lane.right)));
            }
        }
        lanes.addAll(bypasses);
    }

    // ---- what hangs on pipes

    private void growForests() {
        Set<String> seen = new HashSet<>(chambers.keySet());
        Set<String> used = new HashSet<>();
        seals.forEach(s -> used.add(s.name()));
        Deque<Map.Entry<String, List<Branch>>> queue = new ArrayDeque<>();
        for (String name : chambers.keySet()) {
            List<Branch> forest = new ArrayList<>();
            forests.put(name, forest);
            queue.add(Map.entry(name, forest));
        }
        List<String> orphans = new ArrayList<>();
        model.cavities().forEach(c -> orphans.add(c.name()));
        while (true) {
            while (!queue.isEmpty()) {
                Map.Entry<String, List<Branch>> at = queue.remove();
                for (PassageSpec passage : model.passages()) {
                    String other = passage.from().equals(at.getKey())
                            ? passage.to()
                            : passage.to().equals(at.getKey()) ? passage.from() : null;
                    if (other == null || model.cavity(other) == null || !used.add(passage.name())) {
                        continue;
                    }
                    boolean ghost = !seen.add(other);
                    Branch branch = new Branch(passage, model.cavity(other), ghost);
                    at.getValue().add(branch);
                    if (!ghost) {
                        queue.add(Map.entry(other, branch.children));
                    }
                }
            }
            orphans.removeIf(seen::contains);
            if (orphans.isEmpty() || chambers.isEmpty()) {
                return;
            }
            // Joined to nothing that touches the shaft: still shown, beside the first chamber, without a pipe.
            String name = orphans.remove(0);
            seen.add(name);
            Branch branch = new Branch(null, model.cavity(name), false);
            forests.get(chambers.keySet().iterator().next()).add(branch);
            queue.add(Map.entry(name, branch.children));
        }
    }

    private double forestWidth(String chamber) {
        return forests.getOrDefault(chamber, List.of()).stream()
                .mapToDouble(Branch::width)
                .sum();
    }

    private double forestHeight(String chamber) {
        int depth = forests.getOrDefault(chamber, List.of()).stream()
                .mapToInt(Branch::depth)
                .max()
                .orElse(0);
        return depth == 0 ? 0 : depth * (CHIP + DUCT) + 8;
    }

    // ---- where on the page

    private void place(double targetWidth) {
        if (lanes.isEmpty()) {
            width = targetWidth;
            height = top + 120;
            return;
        }
        for (Lane lane : lanes) {
            lane.radius = meanRadius(lane);
            for (String name : lane.all()) {
                chambers.get(name).lanes.add(lane);
            }
        }
        mirrorOne();
        for (Map.Entry<String, Chamber> each : chambers.entrySet()) {
            Chamber chamber = each.getValue();
            boolean end = chamber.cavity.role() == Role.HOT_GAS || leftness(chamber.cavity.role()) <= 1;
            chamber.width = Math.max(CHAMBER + (end ? 24 : 0), forestWidth(each.getKey()) - GAP + 34);
        }
        placeAlong(targetWidth);
        placeAcross();
        for (Map.Entry<String, Chamber> each : chambers.entrySet()) {
            placeForest(each.getValue(), forests.get(each.getKey()));
        }
    }

    private double meanRadius(Lane lane) {
        return gaps.stream()
                .filter(g -> g.lane() == lane && g.seal().radius() > 0)
                .mapToDouble(g -> g.seal().radius())
                .average()
                .orElse(0);
    }

    /** Two lanes between the same ends: the one at the larger radius goes on top, the other is mirrored below the disc. */
    private void mirrorOne() {
        for (int i = 0; i < lanes.size(); i++) {
            for (int k = i + 1; k < lanes.size(); k++) {
                Lane a = lanes.get(i);
                Lane b = lanes.get(k);
                if (!disc
                        && a.left != null
                        && a.right != null
                        && a.left.equals(b.left)
                        && a.right.equals(b.right)
                        && !a.inner.isEmpty()
                        && !b.inner.isEmpty()) {
                    disc = true;
                    Lane lower = a.radius < b.radius ? a : b;
                    lower.up = false;
                    Lane upper = lower == a ? b : a;
                    // Tails belong to the upper lane whichever was found first.
                    List<String> before = new ArrayList<>(lower.before);
                    List<String> after = new ArrayList<>(lower.after);
                    lower.before.clear();
                    lower.after.clear();
                    upper.before.addAll(before);
                    upper.after.addAll(after);
                    for (Gap g : List.copyOf(gaps)) {
                        boolean tail = g.lane() == lower
                                && (before.contains(g.left().cavity.name())
                                        || after.contains(g.right().cavity.name()));
                        if (tail) {
                            gaps.set(gaps.indexOf(g), new Gap(g.seal(), upper, g.left(), g.right()));
                        }
                    }
                    List<String> tails = new ArrayList<>(before);
                    tails.addAll(after);
                    for (String name : tails) {
                        chambers.get(name).lanes.remove(lower);
                        chambers.get(name).lanes.add(upper);
                    }
                    lanes.remove(upper);
                    lanes.add(0, upper);
                    lanes.remove(lower);
                    lanes.add(lower);
                    return;
                }
            }
        }
    }

    private double inner(Lane lane) {
        return lane.inner.stream().mapToDouble(n -> chambers.get(n).width).sum() + (lane.inner.size() + 1) * GAP;
    }

    private void placeAlong(double targetWidth) {
        double x = MARGIN;
        Set<Lane> done = new HashSet<>();
        for (Lane lane : lanes) {
            if (done.contains(lane) || (lane.left != null && chambers.get(lane.left).x > 0)) {
                continue;
            }
            // Lanes that share both ends are as wide as the widest.
            List<Lane> family = lanes.stream()
                    .filter(l ->
                            l.left != null && l.left.equals(lane.left) && l.right != null && l.right.equals(lane.right))
                    .toList();
            double span = family.stream().mapToDouble(this::inner).max().orElse(0);
            for (String name : lane.before) {
                x = put(name, x);
            }
            if (lane.left != null) {
                Chamber a = chambers.get(lane.left);
                a.x = x;
                x += a.width;
            }
            if (lane.right == null) {
                x += GAP;
                for (String name : lane.inner) {
                    x = put(name, x);
                }
                x -= GAP;
            }
            double start = x;
            for (Lane each : family) {
                stretch(each, start, span);
                done.add(each);
            }
            if (lane.right != null) {
                x = start + span;
                Chamber b = chambers.get(lane.right);
                b.x = x;
                x += b.width;
            }
            for (String name : lane.after) {
                x += GAP;
                Chamber c = chambers.get(name);
                c.x = x;
                x += c.width;
            }
            done.add(lane);
            x += 40;
        }
        width = x - 40 + MARGIN;
        if (width < targetWidth) {
            double share = (targetWidth - 2 * MARGIN) / (width - 2 * MARGIN);
            for (Chamber c : chambers.values()) {
                c.x = MARGIN + (c.x - MARGIN) * share;
                c.width *= share;
            }
            width = targetWidth;
        }
        placeSides();
    }

    private double put(String name, double x) {
        Chamber c = chambers.get(name);
        c.x = x;
        return x + c.width + GAP;
    }

    private void stretch(Lane lane, double start, double span) {
        double spare = lane.inner.isEmpty() ? 0 : (span - inner(lane)) / lane.inner.size();
        double x = start + GAP;
        for (String name : lane.inner) {
            Chamber c = chambers.get(name);
            c.width += spare;
            x = put(name, x);
        }
    }

    /** Lanes that leave from the inside of another: laid between their ends, or to the right of their only one. */
    private void placeSides() {
        for (Lane lane : lanes) {
            if (lane.inner.isEmpty() || chambers.get(lane.inner.get(0)).x > 0) {
                continue;
            }
            Chamber a = chambers.get(lane.left);
            double start = a.right();
            double end = lane.right == null ? start + inner(lane) : chambers.get(lane.right).x;
            double room = end - start - (lane.inner.size() + 1) * GAP;
            double natural =
                    lane.inner.stream().mapToDouble(n -> chambers.get(n).width).sum();
            double share = Math.max(0.6, lane.right == null ? 1 : room / natural);
            double x = start + GAP;
            for (String name : lane.inner) {
                chambers.get(name).width *= share;
                x = put(name, x);
            }
            width = Math.max(width, x - GAP + MARGIN);
        }
    }

    private double band(Lane lane) {
        double most = 0;
        for (String name : lane.all()) {
            Chamber c = chambers.get(name);
            if (home(c) == lane) {
                most = Math.max(most, forestHeight(name));
            }
        }
        return most;
    }

    /** The lane in whose band a chamber's pipes stand: its topmost. */
    Lane home(Chamber chamber) {
        for (Lane lane : lanes) {
            if (chamber.lanes.contains(lane)) {
                return lane;
            }
        }
        return lanes.get(0);
    }

    private void placeAcross() {
        double y = top + 6;
        List<Lane> ups = lanes.stream().filter(l -> l.up).toList();
        for (Lane lane : ups) {
            y += band(lane) + 14;
            lane.surface = y + LANE;
            y = lane.surface + 24;
        }
        Lane low = lanes.stream().filter(l -> !l.up).findFirst().orElse(null);
        if (low != null) {
            low.surface = y + 104;
            y = low.surface + LANE + 14 + band(low);
            height = y + 8;
        } else {
            height = y + 44;
        }
    }

    private void placeForest(Chamber chamber, List<Branch> forest) {
        if (forest == null || forest.isEmpty()) {
            return;
        }
        Lane lane = home(chamber);
        double total = forest.stream().mapToDouble(Branch::width).sum();
        double x = Math.max(4, chamber.centre() - total / 2);
        x = Math.min(x, Math.max(4, width - total - 4));
        for (Branch branch : forest) {
            double pipe = forest.size() == 1 && branch.children.size() <= 1 ? chamber.centre() - 26 : x + 26;
            double column = forest.size() == 1 && branch.children.size() <= 1 ? pipe - 26 : x;
            double at = Math.max(chamber.x + 14, Math.min(chamber.right() - 14, pipe));
            placeBranch(branch, chamber.cavity.name(), at, lane.y(LANE), column, pipe, lane.up);
            x += branch.width();
        }
    }

    private void placeBranch(
            Branch branch, String inner, double x1, double y1, double column, double pipe, boolean up) {
        double far = up ? y1 - DUCT : y1 + DUCT;
        double edge = up ? far - CHIP : far;
        Rectangle2D box = new Rectangle2D.Double(column + 4, edge, CHIP_WIDTH, CHIP);
        chips.add(new Chip(branch.cavity, box, branch.ghost));
        if (branch.passage != null) {
            ducts.add(new Duct(branch.passage, inner, x1, y1, pipe, far, up));
        }
        double x = column;
        double next = up ? far - CHIP : far + CHIP;
        for (Branch child : branch.children) {
            double childPipe = x + 26;
            double at = Math.max(box.getMinX() + 10, Math.min(box.getMaxX() - 10, childPipe));
            placeBranch(child, branch.cavity.name(), at, next, x, childPipe, up);
            x += child.width();
        }
    }
}
