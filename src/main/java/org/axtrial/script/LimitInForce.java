package org.axtrial.script;

import java.util.Optional;
import org.axtrial.evidence.LimitUse;
import org.axtrial.quantity.Quantity;

/**
 * A named limit of a trial as it counts on one axis.
 *
 * @param name as the script declares it
 * @param value value in force
 * @param scriptDefault what the script declares
 * @param from who set the value in force
 */
public record LimitInForce(String name, Quantity value, Quantity scriptDefault, LimitUse.From from) {

    LimitUse use() {
        return new LimitUse(
                name,
                from,
                value.toString(),
                from == LimitUse.From.SCRIPT ? Optional.empty() : Optional.of(scriptDefault.toString()));
    }
}
