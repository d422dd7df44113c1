package org.vaneward.cli;

import org.vaneward.report.Version;
import picocli.CommandLine.IVersionProvider;

/** What {@code --version} prints. */
final class VersionText implements IVersionProvider {
  @Override
  public String[] getVersion() {
    return new String[] {"vaneward " + Version.words()};
  }
}
