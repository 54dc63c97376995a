using TagService.Hosting;

return await CommandLine.RunAsync(args);
