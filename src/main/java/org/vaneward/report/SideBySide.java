package org.vaneward.report;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.Supplier;

/**
 * Two pieces of work that do not need each other, done at the same time.
 *
 * @param here what the calling thread worked out
 * @param there what another did
 */
record SideBySide<A, B>(A here, B there) {

  /** Does both; what one of them throws is thrown on, that of the first before the other's. */
  static <A, B> SideBySide<A, B> of(Supplier<A> here, Supplier<B> there) {
    CompletableFuture<B> other = CompletableFuture.supplyAsync(there);
    A own = here.get();
    try {
      return new SideBySide<>(own, other.join());
    } catch (CompletionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw e;
    }
  }
}
