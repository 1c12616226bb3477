/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_LINK_FRAME_H
#define GB_LINK_FRAME_H

#include <stdint.h>

/* The payload of the one frame that is being answered, for link*.c only: the request is read first, then the
 * answer is written over it. */

extern uint8_t* const gb_request; /* its first byte */
uint8_t gb_request_count(void);
uint16_t gb_request_u16(uint8_t at);
uint32_t gb_request_u32(uint8_t at);

/* The next bytes of the answer, to be filled in. */
uint8_t* gb_answer_place(uint8_t count);
void gb_answer(const void* from, uint8_t count);
void gb_answer_u8(uint8_t value);
void gb_answer_u32(uint32_t value);
uint8_t gb_answer_room(void);

/* What comes of the requests: each reads its request and writes what follows the result in its answer. */
uint8_t gb_link_identify(void);
uint8_t gb_link_status(void);
uint8_t gb_link_log(void);
uint8_t gb_link_begin_load(void);
uint8_t gb_link_chunk(void);
uint8_t gb_link_commit(void);
uint8_t gb_link_read_back(void);

#endif
