#pragma once

#include "Files/Json.h"
#include "Listening/LiveLugCheck.h"

#include <memory>
#include <span>
#include <string>

namespace web
{

/** The lug check that is going on, if any. */
class LugCheckSession
{
public:
    /** @param sampleRate  Hz. @throws modal::InputError */
    void start (const modal::DrumSpec&, modal::HeadSide, double sampleRate);

    /** All others throw modal::InputError while no lug check was started; lugs count from 1. */
    void add (std::span<const float> samples);
    void chooseLug (double lug);
    void deleteLastTap();

    /** What was heard so far: see Instrument.addLugCheckSamples() in instrument.js. */
    files::Json state() const;

    /** The fit of the head, as the program writes it. */
    files::Json fit (const std::string& date) const;

private:
    listening::LiveLugCheck& running() const;

    std::unique_ptr<listening::LiveLugCheck> check;
    modal::HeadSide side = modal::HeadSide::batter;
};

} // namespace web
