using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.NumberingRules;

/// <summary>How identities of new tags are numbered.</summary>
public static class NumberingRulesEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapNumberingRules(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1/numbering-rules").WithTags(ApiTags.NumberingRules);
        ListNumberingRules.Map(group);
        GetNumberingRule.Map(group);
        PutNumberingRule.Map(group);
        DeleteNumberingRule.Map(group);
    }
}
