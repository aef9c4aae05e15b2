/*
 * An independent Modbus server on libmodbus, with a register image of its own.
 *
 *   register_server tcp            listens on a free loopback port and prints "port N"
 *   register_server rtu DEVICE U   answers as unit U at a serial device, 19200 baud, even parity
 *
 * Both print "ready" once they answer, and end with their standard input.
 *
 * Holding registers 0 to 99, input registers 0 to 49. The values tell word order, byte order and sign; all invented:
 *   holding 10, 11   0x1234 0x5678      a constant of four different bytes, high word first
 *   holding 12, 13   0x5678 0x1234      the same, low word first
 *   holding 14, 15   0xFFFE 0x1DC0      -123456, high word first
 *   holding 16, 17   0x42F6 0xE979      123.456 as float, high word first
 *   holding 18       0xFB2E             -1234 as int16, 64302 as uint16
 *   input   10       0x0A0B             not what holding register 10 holds
 * Holding registers 1001 to 1011 answer with the exception code that is their address less 1000.
 */
#include <errno.h>
#include <modbus.h>
#include <netinet/in.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

enum { HOLDING = 100, INPUTS = 50, EXCEPTIONS = 1000 };

static void *end_with_input(void *unused) {
    (void)unused;
    while (getchar() != EOF) {
    }
    _exit(0);
}

static modbus_mapping_t *image(void) {
    modbus_mapping_t *map = modbus_mapping_new(0, 0, HOLDING, INPUTS);
    if (map == NULL) {
        return NULL;
    }
    uint16_t *held = map->tab_registers;
    held[10] = 0x1234, held[11] = 0x5678;
    held[12] = 0x5678, held[13] = 0x1234;
    held[14] = 0xFFFE, held[15] = 0x1DC0;
    held[16] = 0x42F6, held[17] = 0xE979;
    held[18] = 0xFB2E;
    map->tab_input_registers[10] = 0x0A0B;
    return map;
}

/* 1 if the request was answered with an exception of its own */
static int excepted(modbus_t *ctx, const uint8_t *request) {
    int at = modbus_get_header_length(ctx);
    int function = request[at];
    int address = request[at + 1] << 8 | request[at + 2];
    int code = address - EXCEPTIONS;
    if (function != MODBUS_FC_READ_HOLDING_REGISTERS || code < 1 || code > 11) {
        return 0;
    }
    modbus_reply_exception(ctx, request, code);
    return 1;
}

static void serve(modbus_t *ctx, modbus_mapping_t *map) {
    uint8_t request[MODBUS_TCP_MAX_ADU_LENGTH];
    for (;;) {
        int length = modbus_receive(ctx, request);
        if (length > 0 && !excepted(ctx, request)) {
            modbus_reply(ctx, request, length, map);
        } else if (length < 0 && (errno == ECONNRESET || errno == EBADF || errno == EIO)) {
            return;
        }
    }
}

static int failed(const char *what) {
    fprintf(stderr, "%s: %s\n", what, modbus_strerror(errno));
    return 1;
}

static int serve_tcp(modbus_mapping_t *map) {
    modbus_t *ctx = modbus_new_tcp("127.0.0.1", 0);
    int listener = ctx == NULL ? -1 : modbus_tcp_listen(ctx, 5);
    struct sockaddr_in bound;
    socklen_t size = sizeof bound;
    if (listener < 0 || getsockname(listener, (struct sockaddr *)&bound, &size) < 0) {
        return failed("listen");
    }
    printf("port %d\nready\n", ntohs(bound.sin_port));
    fflush(stdout);
    while (modbus_tcp_accept(ctx, &listener) >= 0) {
        serve(ctx, map);
        modbus_close(ctx);
    }
    return failed("accept");
}

static int serve_rtu(modbus_mapping_t *map, const char *device, int unit) {
    modbus_t *ctx = modbus_new_rtu(device, 19200, 'E', 8, 1);
    if (ctx == NULL || modbus_set_slave(ctx, unit) < 0 || modbus_connect(ctx) < 0) {
        return failed(device);
    }
    printf("ready\n");
    fflush(stdout);
    serve(ctx, map);
    return failed("serial line");
}

int main(int count, char **words) {
    modbus_mapping_t *map = image();
    pthread_t watcher;
    if (map == NULL || pthread_create(&watcher, NULL, end_with_input, NULL) != 0) {
        return failed("start");
    }
    if (count == 2 && strcmp(words[1], "tcp") == 0) {
        return serve_tcp(map);
    }
    if (count == 4 && strcmp(words[1], "rtu") == 0) {
        return serve_rtu(map, words[2], atoi(words[3]));
    }
    fprintf(stderr, "usage: register_server tcp | register_server rtu DEVICE UNIT\n");
    return 2;
}
