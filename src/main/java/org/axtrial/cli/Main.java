package org.axtrial.cli;

/** Entry point of the command line. */
public final class Main {

    private Main() {}

    /**
     * Starts the program.
     *
     * @param args the command line
     */
    public static void main(String[] args) {
        System.out.println("Axtrial 0.1.0");
    }
}
