using System.Reflection;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace TagService.Api.Http.OpenApi;

/// <summary>The OpenAPI document, written to api/openapi.json at build and served at /openapi/v1.json.</summary>
internal static class ContractDocument
{
    private const string Description = """
        Chooses a tag class for any asset record and says how far it will read, how to attach it, how long it will last and what it costs.

        JSON is strict (RFC 8259): names in camelCase, units in the name (`requiredRangeM`, `eirpDbm`), values of choices in kebab-case, no doubled or
        unknown members, no numbers as text, at most 32 levels and 1 MiB for a single record. Errors are problem details (RFC 9457) and list every
        wrong place at once; all types are listed at `/problems`.

        Results are planning values. Radio rules, hazardous areas, pressure vessels, lifting gear, work at height and medical equipment are decided by
        the local regulator, the owner's engineer or another competent person, never by this service.
        """;

    public static void Configure(OpenApiOptions options)
    {
        options.AddDocumentTransformer((document, _, _) =>
        {
            document.Info = new OpenApiInfo { Title = "TagService", Version = Version, Description = Description };
            // Where the document came from is where the service is.
            document.Servers = null;
            document.Tags = new HashSet<OpenApiTag>(ApiTags.All
                .Where(t => document.Tags?.Any(used => used.Name == t.Name) ?? false)
                .Select(t => new OpenApiTag { Name = t.Name, Description = t.Description }));
            return Task.CompletedTask;
        });
        options.AddOperationTransformer<OperationTransformer>();
        var schemas = new SchemaTransformer();
        options.AddSchemaTransformer(schemas);
        options.AddDocumentTransformer(schemas);
        options.AddDocumentTransformer(new SchemaTidying(schemas));
    }

    public static void MapContractDocument(this WebApplication app)
    {
        app.MapOpenApi();
        app.UseSwaggerUI(ui =>
        {
            ui.RoutePrefix = "swagger";
            ui.DocumentTitle = "TagService";
            ui.SwaggerEndpoint("/openapi/v1.json", "TagService");
        });
        app.MapGet("/", () => TypedResults.Redirect("/swagger")).ExcludeFromDescription();
    }

    private static string Version =>
        typeof(ContractDocument).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion.Split('+')[0];
}
