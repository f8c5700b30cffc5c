#pragma once

#include "Files/Json.h"
#include "Finding/Find.h"

namespace reports
{

/** Wishes, the tunings that were found with what each misses, and which wishes exclude each other. Values that are endless are
   null, those that are not known are left out.

    @param label   of the drum
    @param played  the map of played strokes that was searched, for how far it is off; null if there was none */
files::Json findJson (const std::string& label, const std::vector<finding::Wish>&, const finding::FindResult&,
                      modal::ConcertPitch, const finding::PlayedMap* played);

} // namespace reports
