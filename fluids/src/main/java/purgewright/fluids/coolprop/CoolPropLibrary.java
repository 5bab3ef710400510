package purgewright.fluids.coolprop;

import com.sun.jna.Library;
import com.sun.jna.NativeLong;
import com.sun.jna.ptr.NativeLongByReference;

/**
 * The part of CoolProp's documented C interface (CoolPropLib.h) that is used here. Every call reports through an error code and a
 * message buffer; no call may overlap one that makes or frees a handle.
 */
@SuppressWarnings("checkstyle:MethodName") // names are the library's
interface CoolPropLibrary extends Library {
    /** A global text such as "version"; returns 1 when it fitted. */
    NativeLong get_global_param_string(String parameter, byte[] output, int length);

    /** Number of an output by name, -1 when unknown. */
    NativeLong get_param_index(String parameter);

    /** Number of a pair of inputs by name, -1 when unknown. */
    NativeLong get_input_pair_index(String pair);

    /** A new state object; its handle, to be freed. */
    NativeLong AbstractState_factory(
            String backend, String fluids, NativeLongByReference error, byte[] message, NativeLong length);

    /** Frees a handle. */
    void AbstractState_free(NativeLong handle, NativeLongByReference error, byte[] message, NativeLong length);

    /** Moves a state object to two inputs. */
    void AbstractState_update(
            NativeLong handle,
            NativeLong pair,
            double first,
            double second,
            NativeLongByReference error,
            byte[] message,
            NativeLong length);

    /** One output of a state object. */
    double AbstractState_keyed_output(
            NativeLong handle, NativeLong parameter, NativeLongByReference error, byte[] message, NativeLong length);
}
