// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/clipboard.hpp"

#include "core/show/validity.hpp"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QString>

#include <algorithm>
#include <cmath>
#include <set>

namespace gasp {

namespace {

constexpr int most_cues = 200'000;

Micros micros_of(const QJsonValue& value) {
    const double us = value.toDouble(0.0);
    const auto limit = static_cast<double>(longest_sequence.count());
    return Micros{std::isfinite(us) ? std::llround(std::clamp(us, 0.0, limit)) : 0};
}

QJsonObject written(const Show& show, const Sequence& sequence, const Cue& cue) {
    QJsonObject object;
    if (const Channel* channel = find(show, cue.channel)) {
        object["channel"] = QString::fromStdString(channel->name);
        object["kind"] = static_cast<int>(channel->kind);
    }
    object["start_us"] = static_cast<qint64>(start_of(sequence, cue).count());
    object["length_us"] = static_cast<qint64>(cue.length.count());
    object["name"] = QString::fromStdString(cue.name);
    if (cue.flashes) {
        object["rate_hz"] = cue.flashes->rate_hz;
        object["duty_percent"] = cue.flashes->duty_percent;
    }
    return object;
}

/// The channel of this show a copied cue belongs on: the one of that name if it has the kind; null for none.
const Channel* channel_for(const Show& show, const QJsonObject& object) {
    const std::string name = object["channel"].toString().toStdString();
    const int kind = object["kind"].toInt(-1);
    const auto fits = [&](const Channel& channel) {
        return static_cast<int>(channel.kind) == kind && channel.name == name;
    };
    const auto& channels = show.rig.channels;
    const auto same = std::find_if(channels.begin(), channels.end(), fits);
    return same == channels.end() ? nullptr : &*same;
}

Cue read(const QJsonObject& object) {
    Cue cue;
    cue.at = micros_of(object["start_us"]);
    cue.length = micros_of(object["length_us"]);
    cue.name = object["name"].toString().left(1000).toStdString();
    if (object.contains("rate_hz")) {
        cue.flashes = Flashes{object["rate_hz"].toDouble(), object["duty_percent"].toDouble()};
    }
    return cue;
}

}  // namespace

QByteArray copied_cues(const Show& show, const Sequence& sequence, std::span<const CueId> ids) {
    QJsonArray cues;
    for (const CueId id : ids) {
        if (const Cue* cue = find(sequence, id)) {
            cues.append(written(show, sequence, *cue));
        }
    }
    return QJsonDocument(QJsonObject{{"cues", cues}}).toJson(QJsonDocument::Compact);
}

std::vector<Cue> pasted_cues(const QByteArray& data, const Show& show, Micros at,
                             std::optional<ChannelId> lane) {
    const QJsonArray list = QJsonDocument::fromJson(data).object()["cues"].toArray();
    if (list.size() > most_cues) {
        return {};
    }
    std::set<QString> sources;
    for (const QJsonValue& value : list) {
        sources.insert(value.toObject()["channel"].toString());
    }
    const Channel* target = lane && sources.size() == 1 ? find(show, *lane) : nullptr;
    std::vector<Cue> cues;
    for (const QJsonValue& value : list) {
        const QJsonObject object = value.toObject();
        const bool takes = target != nullptr && static_cast<int>(target->kind) == object["kind"].toInt(-1);
        if (const Channel* channel = takes ? target : channel_for(show, object)) {
            cues.push_back(read(object));
            cues.back().channel = channel->id;
        }
    }
    Micros earliest = Micros::max();
    for (const Cue& cue : cues) {
        earliest = std::min(earliest, cue.at);
    }
    for (Cue& cue : cues) {
        cue.at += at - earliest;
    }
    return cues;
}

}  // namespace gasp
