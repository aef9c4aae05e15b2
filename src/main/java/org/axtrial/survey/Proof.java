package org.axtrial.survey;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.axtrial.registers.DriveDescription.IdentityConstant;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.SignalSpec;

/** What a constant proves when it reads as expected. */
enum Proof {
    /** Nothing: many other registers read so, or it reads so whatever the order. */
    NOTHING,
    /** Its address, and the order of the bytes in a register; one register says nothing of the order of words. */
    PLACE,
    /** Address, word order and byte order. */
    ALL;

    /**
     * What a constant proves. Zero and all ones stand in unused registers everywhere; a value that reads the same
     * backwards, by words or by bytes, hides the order that it ought to prove.
     */
    static Proof of(SignalSpec signal, double expected) {
        int[] words = RegisterCodec.encode(signal, expected);
        List<Integer> bytes = Arrays.stream(words)
                .flatMap(word -> IntStream.of(word >>> 8, word & 0xFF))
                .boxed()
                .toList();
        boolean wordsPalindromic = words.length > 1
                && IntStream.range(0, words.length).allMatch(i -> words[i] == words[words.length - 1 - i]);
        boolean bytesAlike = IntStream.range(0, words.length).allMatch(i -> words[i] >>> 8 == (words[i] & 0xFF));
        boolean bytesPalindromic =
                IntStream.range(0, bytes.size()).allMatch(i -> bytes.get(i).equals(bytes.get(bytes.size() - 1 - i)));
        if (Reading.isBlank(words) || wordsPalindromic || bytesAlike || bytesPalindromic) {
            return NOTHING;
        }
        boolean different = bytes.size() >= 4 && bytes.stream().distinct().count() >= 4;
        return different ? ALL : PLACE;
    }

    static Proof of(IdentityConstant constant) {
        return of(constant.signal(), constant.expected());
    }

    /** Why a constant is refused as proof. */
    static String refusal(SignalSpec signal, double expected) {
        int[] words = RegisterCodec.encode(signal, expected);
        String why = Reading.isBlank(words)
                ? "unused registers everywhere read so"
                : "it reads the same in another order of words or bytes";
        return signal.name() + " (" + Surroundings.hex(words) + ") proves nothing: " + why
                + "; declare a constant with four different bytes";
    }
}
