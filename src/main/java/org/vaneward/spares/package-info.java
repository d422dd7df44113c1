/**
 * Kits, loose parts and money: demand simulated forward, the budget, and what to keep on the shelf.
 */
@org.jspecify.annotations.NullMarked
package org.vaneward.spares;
