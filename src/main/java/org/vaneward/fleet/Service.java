package org.vaneward.fleet;

/**
 * What a pump does: the product it handles and its duty, as the records write them.
 *
 * @param product such as {@code petrol}
 * @param duty such as {@code loading}
 */
public record Service(String product, String duty) implements Comparable<Service> {
  @Override
  public int compareTo(Service other) {
    int byProduct = product.compareTo(other.product);
    return byProduct != 0 ? byProduct : duty.compareTo(other.duty);
  }

  /** Product and duty for a person: {@code "petrol, loading"}. */
  @Override
  public String toString() {
    return product + ", " + duty;
  }
}
