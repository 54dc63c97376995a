using TagService.Api;

var builder = WebApplication.CreateBuilder(args);
builder.Services.AddTagServiceApi();
var app = builder.Build();
app.MapTagServiceApi();
app.MapGet("/health/live", () => "alive");
await app.RunAsync();
