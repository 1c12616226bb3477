/* An event table for flash. Written by a program: change the show and write it again. */
/* Gaspworks event table form 1 */
/* show "The Keeper's Locker" */
/* Times count from the start of the sequence. */
/* Output 1 is driven: away from its rest. Load 1 has power. */
/* sequence "Scare" id 7 length_ms 19000 */
/* channel "Keeper valve" id 3 board "Locker board" output 1 contact NO tick_ms 1 at rest load 0 */
/* channel "Lantern" id 4 board "Locker board" output 2 contact NO tick_ms 1 at rest load 0 */
/* channel "Locker lamp" id 5 board "Locker board" output 3 contact NO tick_ms 1 at rest load 0 */
/* channel "Watch room lamp" id 6 board "Locker board" output 4 contact NC tick_ms 1 at rest load 1 */
/* sequence "Watch" id 24 length_ms 12000 */
/* channel "Keeper valve" id 3 board "Locker board" output 1 contact NO tick_ms 1 at rest load 0 */
/* channel "Lantern" id 4 board "Locker board" output 2 contact NO tick_ms 1 at rest load 0 */
/* channel "Locker lamp" id 5 board "Locker board" output 3 contact NO tick_ms 1 at rest load 0 */
/* channel "Watch room lamp" id 6 board "Locker board" output 4 contact NC tick_ms 1 at rest load 1 */
#ifndef GASPWORKS_TABLE_THE_KEEPER_S_LOCKER_LOCKER_BOARD_H
#define GASPWORKS_TABLE_THE_KEEPER_S_LOCKER_LOCKER_BOARD_H

#include <stdint.h>

#ifdef __AVR__
#include <avr/pgmspace.h> /* read with memcpy_P() */
#define GASPWORKS_IN_FLASH PROGMEM
#else
#define GASPWORKS_IN_FLASH
#endif

#ifdef __cplusplus
#define GASPWORKS_CHECK(claim, otherwise) static_assert(claim, otherwise)
#else
#define GASPWORKS_CHECK(claim, otherwise) _Static_assert(claim, otherwise)
#endif

typedef uint32_t gaspworks_time;
typedef uint8_t gaspworks_channel;

/* One change of one channel, or the end of the sequence, at which every channel goes to rest. */
typedef struct {
    gaspworks_time time;       /* from the start of the sequence, in steps of its GASPWORKS_STEP_US_... */
    gaspworks_channel channel; /* GASPWORKS_CHANNEL_..., or GASPWORKS_END */
    uint8_t driven;            /* 1: the output is driven, away from its rest */
} gaspworks_event;

#define GASPWORKS_END 255u

#define GASPWORKS_CHANNELS 4
#define GASPWORKS_CHANNEL_KEEPER_VALVE 0
#define GASPWORKS_CHANNEL_LANTERN 1
#define GASPWORKS_CHANNEL_LOCKER_LAMP 2
#define GASPWORKS_CHANNEL_WATCH_ROOM_LAMP 3

/* Of each channel: its output as counted on the board, from 1; 0 where it has none. */
static const uint32_t gaspworks_output[GASPWORKS_CHANNELS] GASPWORKS_IN_FLASH = {1, 2, 3, 4};
/* Of each channel: 1 where its load has power at rest. */
static const uint8_t gaspworks_load_at_rest[GASPWORKS_CHANNELS] GASPWORKS_IN_FLASH = {0, 0, 0, 1};

#define GASPWORKS_STEP_US_SCARE 1000u
#define GASPWORKS_LENGTH_SCARE 19000u /* steps */
#define GASPWORKS_EVENTS_SCARE 30u /* without the end */
static const gaspworks_event gaspworks_events_scare[] GASPWORKS_IN_FLASH = {
    {1500u, 3u, 1u},
    {4554u, 1u, 1u},
    {6854u, 1u, 0u},
    {7131u, 1u, 1u},
    {9431u, 1u, 0u},
    {9939u, 1u, 1u},
    {10239u, 1u, 0u},
    {10439u, 1u, 1u},
    {10739u, 1u, 0u},
    {10939u, 1u, 1u},
    {11239u, 1u, 0u},
    {11439u, 1u, 1u},
    {11739u, 1u, 0u},
    {11939u, 1u, 1u},
    {12239u, 1u, 0u},
    {12785u, 2u, 1u},
    {13205u, 2u, 0u},
    {14497u, 0u, 1u},
    {14780u, 2u, 1u},
    {14980u, 2u, 0u},
    {15113u, 2u, 1u},
    {15313u, 2u, 0u},
    {15447u, 2u, 1u},
    {15647u, 2u, 0u},
    {15780u, 2u, 1u},
    {15980u, 2u, 0u},
    {16113u, 2u, 1u},
    {16280u, 2u, 0u},
    {16397u, 0u, 0u},
    {17200u, 3u, 0u},
    {GASPWORKS_LENGTH_SCARE, GASPWORKS_END, 0u},
};
GASPWORKS_CHECK(sizeof gaspworks_events_scare / sizeof gaspworks_events_scare[0] == GASPWORKS_EVENTS_SCARE + 1,
                "events are missing, or too many");

#define GASPWORKS_STEP_US_WATCH 1000u
#define GASPWORKS_LENGTH_WATCH 12000u /* steps */
#define GASPWORKS_EVENTS_WATCH 4u /* without the end */
static const gaspworks_event gaspworks_events_watch[] GASPWORKS_IN_FLASH = {
    {500u, 1u, 1u},
    {2000u, 1u, 0u},
    {5500u, 1u, 1u},
    {7000u, 1u, 0u},
    {GASPWORKS_LENGTH_WATCH, GASPWORKS_END, 0u},
};
GASPWORKS_CHECK(sizeof gaspworks_events_watch / sizeof gaspworks_events_watch[0] == GASPWORKS_EVENTS_WATCH + 1,
                "events are missing, or too many");

#endif
