package purgewright.gui;

import java.lang.reflect.Field;

/** Counts listeners on properties of the toolkit, which does not tell: its own book-keeping is looked at. */
public final class Listeners {
    private Listeners() {}

    /** How many listen to a property. */
    public static int on(Object property) throws ReflectiveOperationException {
        Object helper = null;
        for (Class<?> c = property.getClass(); c != null && helper == null; c = c.getSuperclass()) {
            for (Field f : c.getDeclaredFields()) {
                if (f.getName().equals("helper")) {
                    f.setAccessible(true);
                    helper = f.get(property);
                }
            }
        }
        if (helper == null) {
            return 0;
        }
        int n = 0;
        boolean counted = false;
        for (Field f : helper.getClass().getDeclaredFields()) {
            if (f.getName().endsWith("Size")) {
                f.setAccessible(true);
                n += f.getInt(helper);
                counted = true;
            }
        }
        return counted ? n : 1;
    }
}
