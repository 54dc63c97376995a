using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TagService.Storage.Migrations
{
    /// <inheritdoc />
    public partial class RegisterCorrections : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "register_tag_key",
                table: "assets",
                type: "text",
                nullable: true,
                collation: "C");

            migrationBuilder.CreateIndex(
                name: "ix_attachments_open_asset",
                table: "attachments",
                column: "asset_id",
                filter: "end_reason IS NULL")
                .Annotation("Npgsql:IndexInclude", new[] { "tag_id" });

            migrationBuilder.CreateIndex(
                name: "ix_assets_register_tag_key",
                table: "assets",
                column: "asset_id",
                filter: "register_tag_key IS NOT NULL AND retired_at IS NULL")
                .Annotation("Npgsql:IndexInclude", new[] { "register_tag_key", "source" });

            migrationBuilder.CreateIndex(
                name: "ix_assets_unreadable_register_tag",
                table: "assets",
                column: "asset_id",
                filter: "register_tag IS NOT NULL AND register_tag_key IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_assets_without_register_tag",
                table: "assets",
                column: "asset_id",
                filter: "register_tag IS NULL AND retired_at IS NULL");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_attachments_open_asset",
                table: "attachments");

            migrationBuilder.DropIndex(
                name: "ix_assets_register_tag_key",
                table: "assets");

            migrationBuilder.DropIndex(
                name: "ix_assets_unreadable_register_tag",
                table: "assets");

            migrationBuilder.DropIndex(
                name: "ix_assets_without_register_tag",
                table: "assets");

            migrationBuilder.DropColumn(
                name: "register_tag_key",
                table: "assets");
        }
    }
}
