#pragma once

#include <vector>

namespace score
{

/** A second order section in the notation of ITU-R BS.1770: y[n] = b0·x[n] + b1·x[n-1] + b2·x[n-2] - a1·y[n-1] - a2·y[n-2]. */
struct FilterSection
{
    double b0, b1, b2, a1, a2;
};

/** The K-weighting of ITU-R BS.1770-4. The recommendation prints coefficients for 48 kHz only; these are the same analogue
   filters, taken to any sample rate by the bilinear transform. */
struct KWeighting
{
    FilterSection shelf, highPass;

    explicit KWeighting (double sampleRate);
};

/** Measures programme loudness after ITU-R BS.1770-4 block by block: K-weighting, blocks of 400 ms that overlap by three
   quarters, the absolute gate at −70 LKFS and the relative gate at −10. Every channel counts alike, as left, right and centre do.
   A LUFS is the same unit as a LKFS. */
class LoudnessMeter
{
public:
    LoudnessMeter (double sampleRate, int channels);

    /** `frames` samples of each channel; full scale is 1. */
    void add (const float* const* channels, int frames);

    /** LUFS of all samples so far times `gain`; −infinity for silence and for less than 400 ms. */
    double loudness (double gain = 1.0) const;

    /** The factor that brings the sound to `target` LUFS; 1 where loudness is −infinity at any gain. */
    double gainFor (double target) const;

private:
    struct State
    {
        double first = 0.0, second = 0.0;
    };
    static double filtered (const FilterSection&, State&, double) noexcept;

    KWeighting weighting;
    std::vector<State> shelfStates, highPassStates; ///< by channel
    int hop, inHop = 0;                             ///< samples in 100 ms, and of them so far
    double sum = 0.0;                               ///< of squares in this hop
    std::vector<double> hops;                       ///< mean square of each 100 ms, summed over channels
};

/** The same of one channel. */
double loudness (const std::vector<float>& samples, double sampleRate);

} // namespace score
