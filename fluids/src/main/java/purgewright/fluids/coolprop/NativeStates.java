package purgewright.fluids.coolprop;

import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import com.sun.jna.ptr.NativeLongByReference;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.locks.ReentrantReadWriteLock;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PropertyException.Key;

/**
 * Native state objects, lent to one thread at a time and kept for reuse.
 *
 * <p>Making and freeing them excludes every other call: the library keeps its handles in one table. Calls on different handles may
 * run side by side.
 */
final class NativeStates implements AutoCloseable {
    private static final int BUFFER = 1024;

    private final CoolPropLibrary library;
    private final ReentrantReadWriteLock lock = new ReentrantReadWriteLock();
    private final Map<String, ArrayDeque<State>> idle = new HashMap<>(); // guarded by itself
    private int alive; // guarded by the write lock
    private volatile boolean closed;

    NativeStates(CoolPropLibrary library) {
        this.library = library;
    }

    /** What to do with a borrowed state object. */
    interface Use<T> {
        T with(State state);
    }

    /** One native state object with its error buffer. */
    final class State {
        private final NativeLong handle;
        private final String fluid;
        private final NativeLongByReference error = new NativeLongByReference();
        private final byte[] message = new byte[BUFFER];
        private final NativeLong length = new NativeLong(BUFFER);

        private State(String fluid) {
            this.fluid = fluid;
            this.handle = library.AbstractState_factory("HEOS", fluid, error, message, length);
            check(Key.UNKNOWN_FLUID, "name", fluid);
        }

        /** Moves to two inputs in the order of the pair's name. */
        void update(int pair, double first, double second, String firstName, String secondName) {
            error.setValue(new NativeLong(0));
            library.AbstractState_update(handle, new NativeLong(pair), first, second, error, message, length);
            check(Key.NO_SUCH_STATE, firstName, first, secondName, second);
        }

        /** An output; a failure or a number that is none becomes NaN when the caller allows it. */
        double output(int parameter, boolean mayFail, String what) {
            error.setValue(new NativeLong(0));
            double value =
                    library.AbstractState_keyed_output(handle, new NativeLong(parameter), error, message, length);
            boolean failed = error.getValue().longValue() != 0 || Double.isNaN(value) || Double.isInfinite(value);
            if (failed && mayFail) {
                return Double.NaN;
            }
            check(Key.NO_MODEL, "property", what);
            if (failed) {
                throw problem(Key.NO_MODEL, "property", what);
            }
            return value;
        }

        private void check(Key key, Object... pairs) {
            if (error.getValue().longValue() != 0) {
                throw problem(key, pairs);
            }
        }

        private PropertyException problem(Key key, Object... pairs) {
            Map<String, Object> values = new LinkedHashMap<>();
            values.put("fluid", fluid);
            for (int i = 0; i < pairs.length; i += 2) {
                values.put(String.valueOf(pairs[i]), pairs[i + 1]);
            }
            values.put("message", Native.toString(message, StandardCharsets.UTF_8.name()));
            return new PropertyException(key, values);
        }

        private void free() {
            error.setValue(new NativeLong(0));
            library.AbstractState_free(handle, error, message, length);
        }
    }

    /** Lends a state object of a fluid to a use. */
    <T> T lend(String fluid, Use<T> use) {
        State state;
        synchronized (idle) {
            ArrayDeque<State> waiting = idle.get(fluid);
            state = waiting == null ? null : waiting.poll();
        }
        if (state == null) {
            lock.writeLock().lock();
            try {
                requireOpen();
                state = new State(fluid);
                alive++;
            } finally {
                lock.writeLock().unlock();
            }
        }
        lock.readLock().lock();
        try {
            requireOpen();
            return use.with(state);
        } finally {
            boolean kept = false;
            synchronized (idle) {
                if (!closed) {
                    idle.computeIfAbsent(fluid, name -> new ArrayDeque<>()).push(state);
                    kept = true;
                }
            }
            lock.readLock().unlock();
            if (!kept) {
                release(state);
            }
        }
    }

    private void requireOpen() {
        if (closed) {
            throw new IllegalStateException("the CoolProp engine is closed");
        }
    }

    private void release(State state) {
        lock.writeLock().lock();
        try {
            state.free();
            alive--;
        } finally {
            lock.writeLock().unlock();
        }
    }

    int parameter(String name) {
        return known(library.get_param_index(name), name);
    }

    int pair(String name) {
        return known(library.get_input_pair_index(name), name);
    }

    private static int known(NativeLong index, String name) {
        if (index.longValue() < 0) {
            Map<String, Object> values = new LinkedHashMap<>();
            values.put("library", "CoolProp");
            values.put("what", "the library does not know " + name + ": too old or too new");
            throw new PropertyException(Key.LIBRARY_MISSING, values);
        }
        return index.intValue();
    }

    int alive() {
        lock.readLock().lock();
        try {
            return alive;
        } finally {
            lock.readLock().unlock();
        }
    }

    @Override
    public void close() {
        lock.writeLock().lock();
        try {
            closed = true;
            synchronized (idle) {
                for (ArrayDeque<State> waiting : idle.values()) {
                    for (State state : waiting) {
                        state.free();
                        alive--;
                    }
                }
                idle.clear();
            }
        } finally {
            lock.writeLock().unlock();
        }
    }
}
