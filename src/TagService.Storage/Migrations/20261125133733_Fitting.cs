using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TagService.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Fitting : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "reserved_identities",
                columns: table => new
                {
                    identity = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    asset_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    is_additional = table.Column<bool>(type: "boolean", nullable: false),
                    epc_hex = table.Column<string>(type: "text", nullable: false),
                    numbering_rule_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    reserved_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    attachment_id = table.Column<Guid>(type: "uuid", nullable: true),
                    xmin = table.Column<uint>(type: "xid", rowVersion: true, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reserved_identities", x => x.identity);
                    table.ForeignKey(
                        name: "fk_reserved_identities_assets_asset_id",
                        column: x => x.asset_id,
                        principalTable: "assets",
                        principalColumn: "asset_id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ux_reserved_identities_unused",
                table: "reserved_identities",
                columns: new[] { "asset_id", "is_additional" },
                unique: true,
                filter: "attachment_id IS NULL");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "reserved_identities");
        }
    }
}
