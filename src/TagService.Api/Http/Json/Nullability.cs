using System.Reflection;

namespace TagService.Api.Http.Json;

/// <summary>The serializer does not look at the nullable annotation of list items and map values; this does.</summary>
internal static class Nullability
{
    /// <summary>Whether items of a list, or values of a map, may be null by their annotation.</summary>
    public static bool OfItems(PropertyInfo property)
    {
        var annotation = new NullabilityInfoContext().Create(property);
        var item = annotation.ElementType ?? annotation.GenericTypeArguments.LastOrDefault();
        return item is not null && item.WriteState == NullabilityState.Nullable;
    }
}
