package purgewright.command;

import picocli.CommandLine.IVersionProvider;

/** The version, from the jar's manifest. */
public final class Version implements IVersionProvider {
    /** For instance "0.1.0"; "unpackaged" when classes run from a folder. */
    public static String number() {
        String version = Version.class.getPackage().getImplementationVersion();
        return version == null ? "unpackaged" : version;
    }

    @Override
    public String[] getVersion() {
        return new String[] {"purgewright " + number(), "Java " + System.getProperty("java.version")};
    }
}
