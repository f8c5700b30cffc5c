#include "DragOut.h"

#include "Strings.h"

namespace editor
{

DragOut::DragOut (juce::File temporary) : folder (std::move (temporary))
{
    for (const auto& left : folder.findChildFiles (juce::File::findDirectories, false))
        if (left.getLastModificationTime() < juce::Time::getCurrentTime() - juce::RelativeTime::days (1.0))
            left.deleteRecursively();

    handOver = [] (const juce::StringArray& files, juce::Component& source)
    { juce::DragAndDropContainer::performExternalDragDropOfFiles (files, false, &source); };

    writer.onDone = [this] (const plugin::TakeWriter::Result& result)
    {
        if (result.fault.isNotEmpty())
        {
            if (onSay)
                onSay (result.fault);
            return;
        }
        ready = std::exchange (pending, std::nullopt);
        deliver();
    };
}

juce::File DragOut::usualFolder()
{
    return juce::File::getSpecialLocation (juce::File::tempDirectory).getChildFile ("snarewright-dragged");
}

void DragOut::begin (juce::Component& source, Kind kind, const juce::String& name, plugin::TakeRequest request, double tempo)
{
    dragged = &source;
    if (ready && ready->model == request.model && ready->values == request.values && ready->name == name && ready->kind == kind)
        return deliver();

    // A folder for each, so that the file has a plain name.
    const auto own = folder.getNonexistentChildFile ("take", {});
    const auto file = own.getChildFile (juce::File::createLegalFileName (name));
    if (const auto made = own.createDirectory(); made.failed())
    {
        if (onSay)
            onSay (made.getErrorMessage());
        return;
    }
    plugin::TakeFiles files;
    (kind == Kind::midi ? files.midi : files.mix) = file.withFileExtension (kind == Kind::midi ? "mid" : "wav");
    pending = Ready{ request.model, request.values, name, kind, files };
    writer.start (std::move (request), files, tempo);
}

/** The system takes over a drag only while the button is held. */
void DragOut::deliver()
{
    if (dragged == nullptr)
        return;
    if (dragged->isMouseButtonDown())
        handOver (ready->files.paths(), *dragged);
    else if (onSay)
        onSay (strings::dragAgain);
}

} // namespace editor
