/*
 * An independent Modbus TCP client on libmodbus: does what its arguments say, one after the other on one connection, and
 * prints one line for each.
 *
 *   register_client PORT UNIT [h:ADDRESS:COUNT | i:ADDRESS:COUNT | w:ADDRESS:VALUE | b:ADDRESS:VALUE,VALUE… | x:HEX] …
 *
 * h reads holding registers, i input registers, w writes one, b a block, x sends a bare PDU and prints the reply's PDU.
 * Words are printed in hex; a failure prints "error" and the code and text of libmodbus.
 */
#include <errno.h>
#include <modbus.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>

static void print_words(const uint16_t *words, int count) {
    for (int i = 0; i < count; i++) {
        printf(i == 0 ? "%04X" : " %04X", words[i]);
    }
    printf("\n");
}

static int read_words(modbus_t *ctx, char table, int address, int count) {
    uint16_t words[MODBUS_MAX_READ_REGISTERS];
    int got = table == 'h' ? modbus_read_registers(ctx, address, count, words)
                           : modbus_read_input_registers(ctx, address, count, words);
    if (got > 0) {
        print_words(words, got);
    }
    return got;
}

static int write_block(modbus_t *ctx, int address, char *list) {
    uint16_t words[MODBUS_MAX_WRITE_REGISTERS];
    int count = 0;
    for (char *each = strtok(list, ","); each != NULL && count < MODBUS_MAX_WRITE_REGISTERS; each = strtok(NULL, ",")) {
        words[count++] = (uint16_t)strtol(each, NULL, 0);
    }
    int got = modbus_write_registers(ctx, address, count, words);
    if (got > 0) {
        printf("wrote %d\n", got);
    }
    return got;
}

static int send_pdu(modbus_t *ctx, int unit, const char *hex) {
    uint8_t request[MODBUS_TCP_MAX_ADU_LENGTH];
    uint8_t reply[MODBUS_TCP_MAX_ADU_LENGTH];
    int length = 0;
    request[length++] = (uint8_t)unit;
    for (unsigned byte; sscanf(hex, "%2x", &byte) == 1 && hex[1] != 0; hex += 2) {
        request[length++] = (uint8_t)byte;
    }
    if (modbus_send_raw_request(ctx, request, length) < 0) {
        return -1;
    }
    /* What libmodbus knows nothing of is received by hand: header first, then as much as it says. */
    int at = 0;
    int wanted = 6;
    while (at < wanted) {
        struct pollfd socket = {.fd = modbus_get_socket(ctx), .events = POLLIN};
        if (poll(&socket, 1, 20000) <= 0) {
            return -1;
        }
        ssize_t got = recv(modbus_get_socket(ctx), reply + at, (size_t)(wanted - at), 0);
        if (got <= 0) {
            return -1;
        }
        at += (int)got;
        wanted = at < 6 ? 6 : 6 + (reply[4] << 8 | reply[5]);
    }
    for (int i = 7; i < at; i++) {
        printf("%02X", reply[i]);
    }
    printf("\n");
    return 1;
}

static int one(modbus_t *ctx, int unit, char *order) {
    char *rest = order + 2;
    int address = (int)strtol(rest, NULL, 0);
    char *value = strchr(rest, ':');
    switch (order[0]) {
        case 'h':
        case 'i':
            return value == NULL ? -1 : read_words(ctx, order[0], address, atoi(value + 1));
        case 'w':
            if (value != NULL && modbus_write_register(ctx, address, (int)strtol(value + 1, NULL, 0)) == 1) {
                printf("wrote 1\n");
                return 1;
            }
            return -1;
        case 'b':
            return value == NULL ? -1 : write_block(ctx, address, value + 1);
        default:
            return send_pdu(ctx, unit, rest);
    }
}

int main(int count, char **words) {
    if (count < 3) {
        fprintf(stderr, "usage: register_client PORT UNIT ORDER…\n");
        return 2;
    }
    int unit = atoi(words[2]);
    modbus_t *ctx = modbus_new_tcp("127.0.0.1", atoi(words[1]));
    if (ctx == NULL || modbus_set_slave(ctx, unit) < 0 || modbus_set_response_timeout(ctx, 20, 0) < 0
        || modbus_connect(ctx) < 0) {
        fprintf(stderr, "connect: %s\n", modbus_strerror(errno));
        return 1;
    }
    for (int i = 3; i < count; i++) {
        if (one(ctx, unit, words[i]) < 0) {
            printf("error %d %s\n", errno - MODBUS_ENOBASE, modbus_strerror(errno));
        }
    }
    modbus_close(ctx);
    modbus_free(ctx);
    return 0;
}
