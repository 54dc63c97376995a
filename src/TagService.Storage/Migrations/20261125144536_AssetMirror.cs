using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TagService.Storage.Migrations
{
    /// <inheritdoc />
    public partial class AssetMirror : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<byte[]>(
                name: "content_hash",
                table: "assets",
                type: "bytea",
                nullable: false,
                defaultValueSql: "'\\x'::bytea");

            migrationBuilder.AddColumn<DateTimeOffset>(
                name: "first_seen_at",
                table: "assets",
                type: "timestamp with time zone",
                nullable: false,
                defaultValueSql: "now()");

            migrationBuilder.AddColumn<string>(
                name: "input_key",
                table: "assets",
                type: "text",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "register_tag",
                table: "assets",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<DateTimeOffset>(
                name: "retired_at",
                table: "assets",
                type: "timestamp with time zone",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "retired_reason",
                table: "assets",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "source",
                table: "assets",
                type: "text",
                nullable: false,
                defaultValue: "unknown");

            migrationBuilder.AddColumn<string>(
                name: "input_key",
                table: "asset_recommendations",
                type: "text",
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "material_id",
                table: "asset_recommendations",
                type: "text",
                nullable: false,
                defaultValue: "",
                collation: "C");

            migrationBuilder.AddColumn<string>(
                name: "measured_version",
                table: "asset_recommendations",
                type: "text",
                nullable: false,
                defaultValue: "",
                collation: "C");

            // Rows of the previous program version: known at least since they last changed.
            migrationBuilder.Sql("UPDATE assets SET first_seen_at = updated_at");

            migrationBuilder.CreateTable(
                name: "recommendations_due",
                columns: table => new
                {
                    asset_id = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_recommendations_due", x => x.asset_id);
                });

            migrationBuilder.CreateIndex(
                name: "ix_assets_category_asset_id",
                table: "assets",
                columns: new[] { "category", "asset_id" });

            migrationBuilder.CreateIndex(
                name: "ix_assets_location_name_asset_id",
                table: "assets",
                columns: new[] { "location_name", "asset_id" });

            migrationBuilder.CreateIndex(
                name: "ix_assets_retired",
                table: "assets",
                column: "asset_id",
                filter: "retired_at IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "ix_assets_updated_at",
                table: "assets",
                column: "updated_at");

            migrationBuilder.CreateIndex(
                name: "ix_assets_without_input_key",
                table: "assets",
                column: "asset_id",
                filter: "input_key = ''");

            migrationBuilder.AddCheckConstraint(
                name: "ck_assets_retired",
                table: "assets",
                sql: "retired_at IS NOT NULL OR retired_reason IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_asset_recommendations_basis",
                table: "asset_recommendations",
                columns: new[] { "engine_version", "catalogue_version", "material_id", "measured_version", "asset_id" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "recommendations_due");

            migrationBuilder.DropIndex(
                name: "ix_assets_category_asset_id",
                table: "assets");

            migrationBuilder.DropIndex(
                name: "ix_assets_location_name_asset_id",
                table: "assets");

            migrationBuilder.DropIndex(
                name: "ix_assets_retired",
                table: "assets");

            migrationBuilder.DropIndex(
                name: "ix_assets_updated_at",
                table: "assets");

            migrationBuilder.DropIndex(
                name: "ix_assets_without_input_key",
                table: "assets");

            migrationBuilder.DropCheckConstraint(
                name: "ck_assets_retired",
                table: "assets");

            migrationBuilder.DropIndex(
                name: "ix_asset_recommendations_basis",
                table: "asset_recommendations");

            migrationBuilder.DropColumn(
                name: "content_hash",
                table: "assets");

            migrationBuilder.DropColumn(
                name: "first_seen_at",
                table: "assets");

            migrationBuilder.DropColumn(
                name: "input_key",
                table: "assets");

            migrationBuilder.DropColumn(
                name: "register_tag",
                table: "assets");

            migrationBuilder.DropColumn(
                name: "retired_at",
                table: "assets");

            migrationBuilder.DropColumn(
                name: "retired_reason",
                table: "assets");

            migrationBuilder.DropColumn(
                name: "source",
                table: "assets");

            migrationBuilder.DropColumn(
                name: "input_key",
                table: "asset_recommendations");

            migrationBuilder.DropColumn(
                name: "material_id",
                table: "asset_recommendations");

            migrationBuilder.DropColumn(
                name: "measured_version",
                table: "asset_recommendations");
        }
    }
}
