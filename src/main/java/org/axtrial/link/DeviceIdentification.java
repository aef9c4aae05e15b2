package org.axtrial.link;

import java.util.Collections;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * What a drive answers to Read Device Identification, function 43 with MEI type 14. Source: MODBUS Application Protocol
 * V1.1b3, 6.21.
 */
public sealed interface DeviceIdentification {

    /** Object id of the maker's name. */
    int VENDOR_NAME = 0;
    /** Object id of the product code. */
    int PRODUCT_CODE = 1;
    /** Object id of the major and minor revision. */
    int REVISION = 2;

    /**
     * The drive has told.
     *
     * @param conformity 1 basic, 2 regular, 3 extended, with 80h added if single objects can be read too
     * @param objects texts by object id, in the order of the ids
     */
    record Told(int conformity, Map<Integer, String> objects) implements DeviceIdentification {

        public Told {
            objects = Collections.unmodifiableMap(new TreeMap<>(objects));
        }

        /** One object, empty if the drive has not told it. */
        public Optional<String> object(int id) {
            return Optional.ofNullable(objects.get(id));
        }
    }

    /**
     * The drive answers, but does not tell; that is no fault, many drives lack the function.
     *
     * @param reason for a person
     */
    record NotTold(String reason) implements DeviceIdentification {}
}
