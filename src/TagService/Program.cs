using TagService.Hosting;

<<<<<<< HEAD
return await CommandLine.RunAsync(args);
=======
var builder = WebApplication.CreateBuilder(args);
builder.Services.AddTagServiceApi();
var app = builder.Build();
app.MapTagServiceApi();
await app.RunAsync();
>>>>>>> 995ae1c (wip2)
