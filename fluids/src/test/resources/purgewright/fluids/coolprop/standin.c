/* A stand-in for the CoolProp shared library: the functions that are used, a perfect gas behind them, and a watch over the calls.
   Handles overlap, double frees and wrong handles are reported as errors. Written for the tests; no line is the library's. */
#include <math.h>
#include <stdatomic.h>
#include <stdio.h>
#include <string.h>

#ifndef VERSION
#define VERSION "8.0.0 stand-in"
#endif
#define SLOTS 4096
#define R 2077.0
#define CP 5193.0
#define TC 5.2
#define PC 2.3e5

typedef struct {
    int used;
    atomic_int busy;
    double p, t, d, h, s, q;
    int phase;
} state;

static state slots[SLOTS];
static atomic_int alive;
static atomic_int running;   /* calls on handles under way */
static atomic_int exclusive; /* a factory or free under way */
static atomic_int overlaps;

static const char *PARAMETERS[] = {"P", "T", "Dmass", "Hmass", "Smass", "Cpmass", "Cvmass", "speed_of_sound", "Q", "Phase",
    "viscosity", "conductivity", "molar_mass", "T_critical", "p_critical", "rhomass_critical", "T_triple", "T_max", "P_max"};
static const char *PAIRS[] = {"PT_INPUTS", "HmassP_INPUTS", "PSmass_INPUTS", "DmassT_INPUTS", "DmassP_INPUTS",
    "HmassSmass_INPUTS", "QT_INPUTS", "PQ_INPUTS"};

static void fail(long *code, char *message, long length, const char *text) {
    *code = 1;
    snprintf(message, (size_t) length, "%s", text);
}

static long find(const char **names, int n, const char *name) {
    for (int i = 0; i < n; i++) {
        if (strcmp(names[i], name) == 0) {
            return 100 + i; /* numbers of its own: callers have to ask */
        }
    }
    return -1;
}

long get_param_index(const char *name) {
    return find(PARAMETERS, sizeof PARAMETERS / sizeof *PARAMETERS, name);
}

long get_input_pair_index(const char *name) {
    return find(PAIRS, sizeof PAIRS / sizeof *PAIRS, name);
}

long get_global_param_string(const char *name, char *output, int n) {
    if (strcmp(name, "version") != 0) {
        return 0;
    }
    snprintf(output, (size_t) n, "%s", VERSION);
    return 1;
}

int standin_alive(void) {
    return alive;
}

int standin_overlaps(void) {
    return overlaps;
}

long AbstractState_factory(const char *backend, const char *fluids, long *code, char *message, long length) {
    if (atomic_fetch_add(&exclusive, 1) != 0 || running != 0) {
        overlaps++;
    }
    long handle = -1;
    *code = 0;
    if (strcmp(backend, "HEOS") != 0 || strcmp(fluids, "Neon") == 0) {
        fail(code, message, length, "stand-in: no such fluid");
    } else {
        for (int i = 0; i < SLOTS && handle < 0; i++) {
            if (!slots[i].used) {
                memset(&slots[i], 0, sizeof(state));
                slots[i].used = 1;
                handle = i;
                alive++;
            }
        }
    }
    exclusive--;
    return handle;
}

void AbstractState_free(long handle, long *code, char *message, long length) {
    if (atomic_fetch_add(&exclusive, 1) != 0 || running != 0) {
        overlaps++;
    }
    *code = 0;
    if (handle < 0 || handle >= SLOTS || !slots[handle].used) {
        fail(code, message, length, "stand-in: freed a handle that is none");
        overlaps++;
    } else {
        slots[handle].used = 0;
        alive--;
    }
    exclusive--;
}

static state *enter(long handle, long *code, char *message, long length) {
    running++;
    *code = 0;
    if (exclusive != 0) {
        overlaps++;
    }
    if (handle < 0 || handle >= SLOTS || !slots[handle].used) {
        fail(code, message, length, "stand-in: no such handle");
        overlaps++;
        return 0;
    }
    if (atomic_fetch_add(&slots[handle].busy, 1) != 0) {
        overlaps++;
    }
    return &slots[handle];
}

static void leave(state *s) {
    if (s) {
        s->busy--;
    }
    running--;
}

static double saturation(double t) {
    return PC * exp(5 * (1 - TC / t));
}

#ifndef WITHOUT_UPDATE
void AbstractState_update(long handle, long pair, double a, double b, long *code, char *message, long length) {
    state *s = enter(handle, code, message, length);
    if (s) {
        double p = 0, t = 0;
        s->q = -1;
        s->phase = 5;
        switch (pair - 100) {
            case 0: p = a; t = b; break;
            case 1: p = b; t = a / CP; break;
            case 2: p = a; t = 300 * exp((b + R * log(a / 1e5)) / CP); break;
            case 3: t = b; p = a * R * b; break;
            case 4: p = b; t = b / (R * a); break;
            case 5: t = a / CP; p = 1e5 * exp((CP * log(t / 300) - b) / R); break;
            case 6: s->q = a; t = b; p = saturation(b); break;
            case 7: s->q = b; p = a; t = TC / (1 - log(a / PC) / 5); break;
            default: fail(code, message, length, "stand-in: no such pair");
        }
        if (*code == 0 && !(t > 0 && t <= 2000 && p > 0)) {
            fail(code, message, length, "stand-in: temperature or pressure out of range");
        }
        if (*code == 0) {
            s->p = p;
            s->t = t;
            s->d = p / (R * t);
            s->h = CP * t;
            s->s = CP * log(t / 300) - R * log(p / 1e5);
            if (s->q >= 0) {
                double liquid = 150;
                s->phase = 6;
                s->h -= (1 - s->q) * 2e4;
                s->s -= (1 - s->q) * 2e4 / t;
                s->d = 1 / (s->q / s->d + (1 - s->q) / liquid);
            }
        }
    }
    leave(s);
}
#endif

double AbstractState_keyed_output(long handle, long parameter, long *code, char *message, long length) {
    state *s = enter(handle, code, message, length);
    double value = 0;
    if (s) {
        switch (parameter - 100) {
            case 0: value = s->p; break;
            case 1: value = s->t; break;
            case 2: value = s->d; break;
            case 3: value = s->h; break;
            case 4: value = s->s; break;
            case 5: value = CP; break;
            case 6: value = CP - R; break;
            case 7: value = sqrt(CP / (CP - R) * R * s->t); break;
            case 8: value = s->q; break;
            case 9: value = s->phase; break;
            case 10: value = 2e-5 * pow(s->t / 300, 0.7); break;
            case 11: fail(code, message, length, "stand-in: no conductivity model"); break;
            case 12: value = 4.0026e-3; break;
            case 13: value = TC; break;
            case 14: value = PC; break;
            case 15: value = 70; break;
            case 16: value = 2.2; break;
            case 17: value = 2000; break;
            case 18: value = 1e9; break;
            default: fail(code, message, length, "stand-in: no such parameter");
        }
    }
    leave(s);
    return value;
}
