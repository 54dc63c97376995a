using System.Linq.Expressions;

namespace TagService.Api.Http.Json;

/// <summary>
/// The attributes of <typeparamref name="T"/> and of all it contains as one compiled function: true when every number is finite
/// and in range and every text and list fits. Says only yes or no; what is wrong is found by <see cref="JsonDiagnosis"/>.
/// </summary>
internal static class CompiledCheck<T>
{
    private static readonly Func<T, bool> Check = Build();

    public static bool Fits(T value) => value is null || Check(value);

    private static Func<T, bool> Build()
    {
        var value = Expression.Parameter(typeof(T), "value");
        Expression? all = null;
        foreach (var member in JsonShape.Of(typeof(T)).Members.Values)
        {
            if (CompiledChecks.OfMember(member, Expression.Property(value, member.Property)) is { } check)
                all = all is null ? check : Expression.AndAlso(all, check);
        }

        return all is null ? static _ => true : Expression.Lambda<Func<T, bool>>(all, value).Compile();
    }
}

/// <summary>Builds the parts of <see cref="CompiledCheck{T}"/>.</summary>
internal static class CompiledChecks
{
    public static Expression? OfMember(JsonMember member, Expression get) => member.Shape.Kind switch
    {
        ShapeKind.Number => Number(get, member.Rules),
        ShapeKind.WholeNumber when member.Rules.HasRange => Number(get, member.Rules),
        ShapeKind.Text when member.Rules != MemberRules.None => OrNull(get, Call(nameof(TextFits), [], Expression.Constant(member.Rules), get)),
        ShapeKind.Object => Expression.Call(typeof(CompiledCheck<>).MakeGenericType(get.Type).GetMethod("Fits")!, get),
        ShapeKind.List => OrNull(get, Call(nameof(ListFits), [member.Shape.Info.ElementType!], Expression.Constant(member), get)),
        ShapeKind.Map => OrNull(get, Call(nameof(MapFits), [member.Shape.Info.ElementType!], Expression.Constant(member), get)),
        _ => null,
    };

    public static bool TextFits(MemberRules rules, string text) => rules.TextFits(text);

    public static bool ListFits<TItem>(JsonMember member, IEnumerable<TItem> items)
    {
        var count = 0;
        foreach (var item in items)
        {
            count++;
            if (!ItemFits(member, item))
                return false;
        }

        return member.Rules.LengthFits(count);
    }

    public static bool MapFits<TItem>(JsonMember member, IEnumerable<KeyValuePair<string, TItem>> entries) =>
        ListFits(member, entries.Select(e => e.Value));

    private static bool ItemFits<TItem>(JsonMember member, TItem item) => item switch
    {
        null => member.ItemsMayBeNull,
        double number => double.IsFinite(number),
        string => true,
        _ => member.Shape.Item!.Kind != ShapeKind.Object || CompiledCheck<TItem>.Fits(item),
    };

    private static Expression Number(Expression get, MemberRules rules)
    {
        if (Nullable.GetUnderlyingType(get.Type) is not null)
            return Expression.OrElse(Expression.Not(Expression.Property(get, "HasValue")), Number(Expression.Property(get, "Value"), rules));
        return Expression.Call(Expression.Constant(rules), nameof(MemberRules.NumberFits), [], Expression.Convert(get, typeof(double)));
    }

    private static Expression OrNull(Expression get, Expression check) =>
        get.Type.IsValueType ? check : Expression.OrElse(Expression.ReferenceEqual(get, Expression.Constant(null)), check);

    private static MethodCallExpression Call(string method, Type[] types, params Expression[] arguments) =>
        Expression.Call(typeof(CompiledChecks), method, types, arguments);
}
