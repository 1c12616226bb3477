/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include <stdint.h>

/* The vector table, and what comes before main. */

extern uint32_t load_data[], begin_data[], end_data[], begin_bss[], end_bss[], top_of_stack[];
int main(void);
void systick_handler(void);
void link_handler(void);

static void reset_handler(void) {
    uint32_t* from = load_data;
    for (uintptr_t to = (uintptr_t)begin_data; to < (uintptr_t)end_data; to += sizeof *from) {
        *(uint32_t*)to = *from++;
    }
    for (uintptr_t to = (uintptr_t)begin_bss; to < (uintptr_t)end_bss; to += sizeof *from) {
        *(uint32_t*)to = 0;
    }
    main();
    for (;;) {
    }
}

static void fault_handler(void) {
    for (;;) {
    }
}

typedef void (*vector)(void);
__attribute__((section(".vectors"), used)) static const vector vectors[] = {(vector)(uintptr_t)top_of_stack,
                                                                            reset_handler,
                                                                            fault_handler,
                                                                            fault_handler,
                                                                            fault_handler,
                                                                            fault_handler,
                                                                            fault_handler,
                                                                            0,
                                                                            0,
                                                                            0,
                                                                            0,
                                                                            fault_handler,
                                                                            fault_handler,
                                                                            0,
                                                                            fault_handler,
                                                                            systick_handler,
                                                                            0,
                                                                            0,
                                                                            0,
                                                                            0,
                                                                            0,
                                                                            link_handler};
