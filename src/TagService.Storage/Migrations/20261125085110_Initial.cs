using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TagService.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Initial : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "assets",
                columns: table => new
                {
                    asset_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    record = table.Column<string>(type: "jsonb", nullable: false),
                    record_hash = table.Column<string>(type: "text", nullable: false, computedColumnSql: "encode(sha256(jsonb_send(record)), 'hex')", stored: true),
                    category = table.Column<string>(type: "text", nullable: true, computedColumnSql: "record ->> 'category'", stored: true),
                    location_name = table.Column<string>(type: "text", nullable: true),
                    updated_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_assets", x => x.asset_id);
                    table.CheckConstraint("ck_assets_asset_id", "length(asset_id) BETWEEN 1 AND 200");
                    table.CheckConstraint("ck_assets_record_key", "coalesce(record ->> 'assetId', '') = asset_id");
                });

            migrationBuilder.CreateTable(
                name: "demo_fleets",
                columns: table => new
                {
                    name = table.Column<string>(type: "text", nullable: false),
                    seed = table.Column<int>(type: "integer", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false),
                    asset_count = table.Column<int>(type: "integer", nullable: false),
                    loaded_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_demo_fleets", x => x.name);
                });

            migrationBuilder.CreateTable(
                name: "asset_recommendations",
                columns: table => new
                {
                    asset_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    tag_class_id = table.Column<string>(type: "text", nullable: true),
                    attachment_method_id = table.Column<string>(type: "text", nullable: true),
                    p10_m = table.Column<double>(type: "double precision", nullable: true),
                    p50_m = table.Column<double>(type: "double precision", nullable: true),
                    p90_m = table.Column<double>(type: "double precision", nullable: true),
                    none_because = table.Column<string>(type: "text", nullable: true),
                    lifetime_cost_present_value = table.Column<decimal>(type: "numeric(18,2)", precision: 18, scale: 2, nullable: true),
                    lifetime_cost_currency = table.Column<string>(type: "char(3)", nullable: true),
                    engine_version = table.Column<string>(type: "text", nullable: false),
                    catalogue_version = table.Column<string>(type: "text", nullable: false),
                    record_hash = table.Column<string>(type: "text", nullable: false),
                    computed_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asset_recommendations", x => x.asset_id);
                    table.CheckConstraint("ck_asset_recommendations_amount_with_currency", "(lifetime_cost_present_value IS NULL) = (lifetime_cost_currency IS NULL)");
                    table.CheckConstraint("ck_asset_recommendations_class_or_reason", "(tag_class_id IS NULL) = (none_because IS NOT NULL)");
                    table.ForeignKey(
                        name: "fk_asset_recommendations_assets_asset_id",
                        column: x => x.asset_id,
                        principalTable: "assets",
                        principalColumn: "asset_id",
                        onDelete: ReferentialAction.Cascade);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "asset_recommendations");

            migrationBuilder.DropTable(
                name: "demo_fleets");

            migrationBuilder.DropTable(
                name: "assets");
        }
    }
}
