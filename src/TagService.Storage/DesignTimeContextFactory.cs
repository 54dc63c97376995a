using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace TagService.Storage;

/// <summary>Lets <c>dotnet ef migrations add</c> build the model without starting the service or a database.</summary>
public sealed class DesignTimeContextFactory : IDesignTimeDbContextFactory<TagServiceDbContext>
{
    /// <inheritdoc />
    public TagServiceDbContext CreateDbContext(string[] args)
    {
        var options = new DbContextOptionsBuilder<TagServiceDbContext>();
        StorageHost.Configure(options, StorageHost.CreateDataSource("Host=localhost;Database=design_time"));
        return new TagServiceDbContext(options.Options);
    }
}
