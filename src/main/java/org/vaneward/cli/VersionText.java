package org.vaneward.cli;

import java.util.Optional;
import picocli.CommandLine.IVersionProvider;

/** The version the jar was built as. */
final class VersionText implements IVersionProvider {
  @Override
  public String[] getVersion() {
    String version =
        Optional.ofNullable(Main.class.getPackage().getImplementationVersion())
            .orElse("built from source");
    return new String[] {"vaneward " + version};
  }
}
