#include "RunProgram.h"

#include "Tool/OutputFile.h"
#include "Tool/WavFile.h"

#include "tests/Catch.h"

#include <limits>

TEST_CASE ("A sample that is not finite is never written", "[wav]")
{
    const TemporaryFolder folder;

    for (const float broken : { std::numeric_limits<float>::quiet_NaN(), std::numeric_limits<float>::infinity() })
    {
        tool::WavFile wav (folder.path() / "take.wav", 48000.0, 2, tool::SampleFormat::float32);
        const float left[] = { 0.0f, 0.5f }, right[] = { 0.0f, broken };
        const float* channels[] = { left, right };
        CHECK_NOTHROW (wav.write (channels, 1));
        CHECK_THROWS_AS (wav.write (channels, 2), tool::OutputError);
    }
}
