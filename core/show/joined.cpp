// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edit.hpp"

#include <algorithm>
#include <type_traits>

namespace gasp {
namespace {

/// How a later change stands to an earlier one.
enum class Meeting {
    same,   ///< of the same thing: the two can be one
    apart,  ///< they can be done in either order
    bound   ///< they must stay in this order
};

template <class T>
auto id_of(const Exchange<T>& exchange) {
    return exchange.before ? exchange.before->id : exchange.after->id;
}

template <class T>
bool in_place(const Exchange<T>& exchange) {
    return exchange.before && exchange.after && exchange.index_before == exchange.index_after;
}

template <class A, class B>
Meeting meeting_of(const A&, const B&) {
    return Meeting::apart;
}

template <class T>
Meeting meeting_of(const InSequence<T>& earlier, const InSequence<T>& later) {
    return earlier.sequence == later.sequence ? Meeting::same : Meeting::apart;
}

template <class T>
Meeting meeting_of(const Replacement<T>& earlier, const Replacement<T>& later) {
    return earlier.sequence == later.sequence ? Meeting::same : Meeting::apart;
}

template <class T>
Meeting meeting_of(const Exchange<T>& earlier, const Exchange<T>& later) {
    if (id_of(earlier) == id_of(later)) {
        return Meeting::same;
    }
    return in_place(earlier) && in_place(later) ? Meeting::apart : Meeting::bound;
}

// What is in a sequence stays behind the coming of that sequence, and before its going.
template <class T>
Meeting meeting_of(const Exchange<Sequence>& earlier, const InSequence<T>& later) {
    return id_of(earlier) == later.sequence ? Meeting::bound : Meeting::apart;
}

template <class T>
Meeting meeting_of(const InSequence<T>& earlier, const Exchange<Sequence>& later) {
    return meeting_of(later, earlier);
}

Meeting meeting_of(const Exchange<Sequence>& earlier, const Replacement<SequenceHead>& later) {
    return id_of(earlier) == later.sequence ? Meeting::bound : Meeting::apart;
}

Meeting meeting_of(const Replacement<SequenceHead>& earlier, const Exchange<Sequence>& later) {
    return meeting_of(later, earlier);
}

template <class T>
bool does_nothing(const Exchange<T>& exchange) {
    return exchange.before == exchange.after && exchange.index_before == exchange.index_after;
}

template <class T>
bool does_nothing(const InSequence<T>& change) {
    return change.exchanges.empty();
}

template <class T>
bool does_nothing(const Replacement<T>& replacement) {
    return replacement.before == replacement.after;
}

template <class T>
void join(Exchange<T>& earlier, const Exchange<T>& later) {
    earlier.after = later.after;
    earlier.index_after = later.index_after;
    if (!earlier.before && !earlier.after) {
        earlier.index_before = earlier.index_after = 0;
    }
}

template <class T>
void join(Replacement<T>& earlier, const Replacement<T>& later) {
    earlier.after = later.after;
}

template <class T>
void join(InSequence<T>& earlier, const InSequence<T>& later) {
    std::vector<Exchange<T>> all;
    all.reserve(earlier.exchanges.size() + later.exchanges.size());
    auto next = later.exchanges.begin();
    for (Exchange<T>& exchange : earlier.exchanges) {
        for (; next != later.exchanges.end() && id_of(*next) < id_of(exchange); ++next) {
            all.push_back(*next);
        }
        if (next != later.exchanges.end() && id_of(*next) == id_of(exchange)) {
            join(exchange, *next++);
        }
        if (!does_nothing(exchange)) {
            all.push_back(std::move(exchange));
        }
    }
    all.insert(all.end(), next, later.exchanges.end());
    earlier.exchanges = std::move(all);
}

/// Joins a change into the last one of the same thing, if nothing in between holds it back; else adds it.
void add(std::vector<Change>& changes, const Change& later) {
    for (auto place = changes.rbegin(); place != changes.rend(); ++place) {
        const Meeting meeting =
            std::visit([](const auto& a, const auto& b) { return meeting_of(a, b); }, *place, later);
        if (meeting == Meeting::bound) {
            break;
        }
        if (meeting == Meeting::same) {
            const bool gone = std::visit(
                [&](auto& earlier) {
                    join(earlier, std::get<std::remove_cvref_t<decltype(earlier)>>(later));
                    return does_nothing(earlier);
                },
                *place);
            if (gone) {
                changes.erase(std::next(place).base());
            }
            return;
        }
    }
    changes.push_back(later);
}

}  // namespace

Edit joined(const Edit& earlier, const Edit& later) {
    Edit both = earlier;
    if (both.empty()) {
        both.sentence = later.sentence;
    }
    both.ids_taken += later.ids_taken;
    for (const Change& change : later.changes) {
        add(both.changes, change);
    }
    return both;
}

}  // namespace gasp
