package org.axtrial.script;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import org.axtrial.quantity.NearMiss;
import org.graalvm.polyglot.Value;
import org.graalvm.polyglot.proxy.ProxyArray;
import org.graalvm.polyglot.proxy.ProxyExecutable;
import org.graalvm.polyglot.proxy.ProxyObject;
import org.jspecify.annotations.Nullable;

/**
 * An object of the script whose unknown members are errors. An ordinary object would read {@code undefined} for a
 * misspelt word, and {@code undefined > 5} is quietly false.
 */
abstract class WordObject implements ProxyObject {

    private final WordHost host;
    private final String what;
    private final Map<String, Object> members = new LinkedHashMap<>();

    /** @param what for messages, with its article: {@code an axis} */
    WordObject(WordHost host, String what) {
        this.host = host;
        this.what = what;
    }

    final WordHost host() {
        return host;
    }

    final String what() {
        return what;
    }

    final void word(String name, WordHost.Word word) {
        members.put(name, host.word(word));
    }

    final void member(String name, Object value) {
        members.put(name, value);
    }

    final void constant(String name, String value) {
        members.put(name, value);
    }

    /** How it reads when a script puts it into a text. */
    abstract String printed();

    /** What to use where a script takes this object for a number. */
    String asNumber() {
        return "it is not a number";
    }

    final Set<String> words() {
        return members.keySet();
    }

    @Override
    public final Object getMember(String name) {
        Object member = members.get(name);
        if (member != null) {
            return member;
        }
        if (name.equals("toString")) {
            return (ProxyExecutable) arguments -> printed();
        }
        if (name.equals("valueOf")) {
            throw host.refuse(what + " cannot be compared or computed with; " + asNumber());
        }
        throw host.refuse(what + " has no word \"" + name + "\"; " + NearMiss.hintOrAll(name, words()));
    }

    @Override
    public final Object getMemberKeys() {
        return ProxyArray.fromArray(words().toArray());
    }

    /** True for everything, so that the runtime asks for the member and {@link #getMember} can refuse it. */
    @Override
    public final boolean hasMember(String name) {
        // The language itself looks for "then" on every awaited value; it is the only name that is asked by no script.
        return !name.equals("then");
    }

    @Override
    public final void putMember(String name, @Nullable Value value) {
        throw host.refuse(
                "a script cannot change " + what + ": \"" + name + "\" was assigned; keep the value in a variable");
    }

    @Override
    public final boolean removeMember(String name) {
        throw host.refuse("a script cannot change " + what + ": \"" + name + "\" was deleted");
    }
}
